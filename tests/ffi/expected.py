"""What the examples should say, from what the command says: expected.py report|switching CHECK_OR_SEQUENCE.json"""

import json
import sys

with open(sys.argv[2], encoding="utf-8") as file:
    document = json.load(file)
if sys.argv[1] == "report":
    print(document["outcome"].replace("-", " "))
    for finding in document["findings"]:
        if finding["outcome"] == "fails":
            print(f"{finding['rule']} at line {finding['place']['line']}: {finding['message']}")
            if finding["remedy"]:
                print(f"  mend: {finding['remedy']}")
    for question in document["questions"]:
        print(f"ask: {question['question']}")
else:
    print(document["outcome"].replace("-", " "))
    for source in document["sources"]:
        for order in source["orders"]:
            print(f"to {order['purpose']}, {source['source']}")
            for step in order["steps"]:
                print(f"{step['number']:>3}. {step['step']}")
