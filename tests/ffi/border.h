/* What the programs of this folder share: expectations that say where they failed, and the reading of a file. */
#ifndef BORDER_H
#define BORDER_H

#include <loadworthy.h>
#include <stdio.h>
#include <stdlib.h>

static int failures = 0;

#define EXPECT(condition) expect((condition) != 0, #condition, __FILE__, __LINE__)

static inline void expect(int holds, const char *what, const char *file, int line) {
    if (holds) return;
    fprintf(stderr, "%s:%d: not so: %s\n", file, line, what);
    ++failures;
}

/* The whole of a file, to be freed; ends the program where it cannot be read. */
static inline char *read_file(const char *path, size_t *len) {
    FILE *file = fopen(path, "rb");
    char *bytes = NULL;
    long end;
    if (!file || fseek(file, 0, SEEK_END) != 0 || (end = ftell(file)) < 0 || fseek(file, 0, SEEK_SET) != 0) {
        fprintf(stderr, "%s: could not be read\n", path);
        exit(3);
    }
    *len = (size_t)end;
    bytes = malloc(*len + 1);
    if (!bytes || fread(bytes, 1, *len, file) != *len) exit(3);
    fclose(file);
    return bytes;
}

#endif
