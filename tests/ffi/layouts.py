"""Prints a C program that prints the size of every struct of the header and the offset and size of every field.

    python3 layouts.py path/to/loadworthy.h > layouts.c
"""

import re
import sys

header = open(sys.argv[1], encoding="utf-8").read()
code = re.sub(r"/\*.*?\*/", "", header, flags=re.DOTALL)
print("#include <loadworthy.h>\n#include <stdio.h>\n\nint main(void) {")
structs = re.findall(r"typedef struct \{(.*?)\} (\w+);", code, flags=re.DOTALL)
assert structs, "the header has no structs"
for body, name in sorted(structs, key=lambda found: found[1]):
    print(f'    printf("{name} %zu\\n", sizeof({name}));')
    for field in re.findall(r"(\w+);", body):
        place = f"offsetof({name}, {field})"
        print(f'    printf("  {field} %zu %zu\\n", {place}, sizeof((({name} *)0)->{field}));')
print("    return 0;\n}")
