/* A table of circuits by the Arrow C data interface, made by hand as the interface describes it, and its answers. */
#include "border.h"
#include <stdint.h>

struct ArrowSchema {
    const char *format, *name, *metadata;
    int64_t flags, n_children;
    struct ArrowSchema **children, *dictionary;
    void (*release)(struct ArrowSchema *);
    void *private_data;
};

struct ArrowArray {
    int64_t length, null_count, offset, n_buffers, n_children;
    const void **buffers;
    struct ArrowArray **children, *dictionary;
    void (*release)(struct ArrowArray *);
    void *private_data;
};

enum { ROWS = 3, COLUMNS = 6 };

static int released = 0;

static void release_array(struct ArrowArray *array) {
    int64_t child;
    for (child = 0; child < array->n_children; ++child) {
        if (array->children[child]->release) array->children[child]->release(array->children[child]);
    }
    ++released;
    array->release = NULL;
}

static void release_schema(struct ArrowSchema *schema) { schema->release = NULL; }

static const double load[ROWS] = {16, 16.000001, 16}, other[ROWS] = {0, 0, 0}, device[ROWS] = {20, 20, 20};
static const uint8_t two_of_three = 3;
static const int32_t by_six[ROWS + 1] = {0, 6, 12, 18};
static const void *words[3][3] = {
    {NULL, by_six, "coppercoppercopper"}, {NULL, by_six, "12 AWG12 AWG12 AWG"}, {NULL, by_six, "THWN-2THWN-2THWN-2"}};
static const void *figures[3][2] = {{NULL, load}, {NULL, other}, {&two_of_three, device}};
static const void *none[1] = {NULL};
static struct ArrowArray columns[COLUMNS], table, *children[COLUMNS];
static struct ArrowSchema fields[COLUMNS], schema, *names[COLUMNS];

static void make(void) {
    static const char *const name[] = {"material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a"};
    int column;
    for (column = 0; column < COLUMNS; ++column) {
        const int word = column < 3;
        memset(&columns[column], 0, sizeof columns[column]);
        memset(&fields[column], 0, sizeof fields[column]);
        columns[column].length = ROWS;
        columns[column].null_count = column == 5;
        columns[column].n_buffers = word ? 3 : 2;
        columns[column].buffers = word ? words[column] : figures[column - 3];
        columns[column].release = release_array;
        fields[column].format = word ? "u" : "g";
        fields[column].name = name[column];
        fields[column].flags = 2;
        fields[column].release = release_schema;
        children[column] = &columns[column];
        names[column] = &fields[column];
    }
    memset(&table, 0, sizeof table);
    memset(&schema, 0, sizeof schema);
    table.length = ROWS;
    table.n_buffers = 1;
    table.buffers = none;
    table.n_children = schema.n_children = COLUMNS;
    table.children = children;
    table.release = release_array;
    schema.format = "+s";
    schema.name = "";
    schema.children = names;
    schema.release = release_schema;
    released = 0;
}

/* The column of answers with a name, and its field. */
static struct ArrowArray *column_of(struct ArrowArray *rows, struct ArrowSchema *of, const char *name, const char **format) {
    int64_t child;
    for (child = 0; child < of->n_children; ++child) {
        if (strcmp(of->children[child]->name, name) == 0) {
            *format = of->children[child]->format;
            return rows->children[child];
        }
    }
    return NULL;
}

/* Whether a row of a dictionary of utf8 with keys of 8 bits reads as a word. */
static int reads(const struct ArrowArray *column, int row, const char *word) {
    const int8_t key = ((const int8_t *)column->buffers[1])[column->offset + row];
    const int32_t *offsets = column->dictionary->buffers[1];
    const char *text = column->dictionary->buffers[2];
    const size_t len = (size_t)(offsets[key + 1] - offsets[key]);
    return len == strlen(word) && memcmp(text + offsets[key], word, len) == 0;
}

int main(void) {
    lw_code *code;
    lw_error *error = NULL;
    struct ArrowSchema answer_fields;
    struct ArrowArray answers;
    struct ArrowArray *column;
    const char *format = "";
    EXPECT(lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, NULL) == LW_STATUS_OK);
#define JUDGE() lw_batch_judge_arrow(code, &schema, &table, NULL, &answer_fields, &answers, &error)

    make();
    EXPECT(JUDGE() == LW_STATUS_OK && !error);
    EXPECT(table.release == NULL && schema.release != NULL);
    EXPECT(answers.length == ROWS && strcmp(answer_fields.format, "+s") == 0);
    column = column_of(&answers, &answer_fields, "verdict", &format);
    /* 125 % of 16 A is exactly 20 A, and the last row has no device. */
    EXPECT(column && strcmp(format, "c") == 0);
    EXPECT(reads(column, 0, "holds") && reads(column, 1, "fails") && reads(column, 2, "cannot tell"));
    column = column_of(&answers, &answer_fields, "ampacity_a", &format);
    EXPECT(column && strcmp(format, "g") == 0);
    /* Table 310.16: 12 AWG copper at 60 °C. */
    EXPECT(((const double *)column->buffers[1])[column->offset] == 20);
    answers.release(&answers);
    answer_fields.release(&answer_fields);
    EXPECT(released == COLUMNS + 1);

    /* A table that was moved in already, and columns that are none of a circuit. */
    EXPECT(JUDGE() == LW_STATUS_ARROW && error && answers.release == NULL && answer_fields.release == NULL);
    lw_error_free(error);
    make();
    fields[3].name = "load";
    EXPECT(JUDGE() == LW_STATUS_COLUMNS && answers.release == NULL && released == COLUMNS + 1);
    lw_error_free(error);
    /* No struct, a format that there is not, and no pointers at all. */
    make();
    schema.format = "g";
    EXPECT(JUDGE() == LW_STATUS_ARROW && answers.release == NULL);
    lw_error_free(error);
    make();
    fields[0].format = "?";
    EXPECT(JUDGE() == LW_STATUS_ARROW && released == COLUMNS + 1);
    lw_error_free(error);
    make();
    /* A text that is not UTF-8 is refused before anything rests on it. */
    words[0][2] = "\xff\xff\xff\xff\xff\xff" "coppercopper";
    EXPECT(JUDGE() == LW_STATUS_ARROW && released == COLUMNS + 1);
    lw_error_free(error);
    EXPECT(lw_batch_judge_arrow(code, NULL, NULL, NULL, NULL, NULL, NULL) == LW_STATUS_NULL_POINTER);
    EXPECT(lw_code_free(code) == LW_STATUS_OK);
    if (failures) fprintf(stderr, "%d expectations failed\n", failures);
    return failures ? 1 : 0;
}
