/* Prints the answer to a question by name: asked text|json QUESTION [NAME VALUE]... The exit status is that of the
 * command. */
#include "border.h"

int main(int count, char **arguments) {
    lw_code *code;
    lw_answer *answer;
    lw_error *error = NULL;
    lw_brief brief = lw_brief_init();
    lw_str text = {NULL, 0};
    lw_str names[64], values[64];
    const int options = (count - 3) / 2;
    int option;
    if (count < 3 || count % 2 == 0 || options > 64) return 64;
    for (option = 0; option < options; ++option) {
        names[option] = lw_text(arguments[3 + 2 * option]);
        values[option] = lw_text(arguments[4 + 2 * option]);
    }
    if (lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, NULL)) return 70;
    if (lw_ask(code, arguments[2], strlen(arguments[2]), names, values, (size_t)options, &answer, &error)) {
        lw_error_message(error, &text);
        fprintf(stderr, "loadworthy: %s\n", text.data);
        lw_error_free(error);
        lw_code_free(code);
        return 3;
    }
    lw_code_free(code);
    EXPECT((strcmp(arguments[1], "json") ? lw_answer_text : lw_answer_json)(answer, &text, NULL) == LW_STATUS_OK);
    fwrite(text.data, 1, text.len, stdout);
    EXPECT(lw_answer_brief(answer, &brief, NULL) == LW_STATUS_OK);
    /* A figure is its value and its unit; the document for programs has the value as it is, a person reads it rounded. */
    EXPECT((brief.value.data == NULL) == (brief.unit.data == NULL));
    if (brief.value.data) {
        EXPECT(brief.figure.len == brief.value.len + 1 + brief.unit.len);
        EXPECT(strncmp(brief.figure.data, brief.value.data, brief.value.len) == 0);
        EXPECT(strcmp(brief.figure.data + brief.value.len + 1, brief.unit.data) == 0);
        EXPECT(strcmp(arguments[1], "json") || strstr(text.data, brief.value.data) != NULL);
    }
    lw_answer_free(answer);
    if (failures) return 70;
    return brief.outcome == LW_OUTCOME_HOLDS ? 0 : brief.outcome == LW_OUTCOME_FAILS ? 1 : 2;
}
