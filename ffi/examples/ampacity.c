/* How much current may a conductor carry, and what limits it? One question, its answer and its working. */
#include <loadworthy.h>
#include <stdio.h>

/* Prints why a call failed, and gives the exit status of the command for input that could not be read. */
static int failed(lw_error *error) {
    lw_str message;
    if (lw_error_message(error, &message) == LW_STATUS_OK) fprintf(stderr, "%s\n", message.data);
    lw_error_free(error);
    return 3;
}

int main(void) {
    lw_error *error = NULL;
    lw_code *code = NULL;
    lw_working *working = NULL;
    lw_str word, text;

    if (lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, &error) != LW_STATUS_OK) return failed(error);

    /* 8 AWG copper THHN in an attic at 104 °F, between terminals marked 75 °C. The rest is not stated. */
    lw_ampacity_question question = lw_ampacity_question_init();
    question.material = LW_MATERIAL_COPPER;
    question.size = 8;
    question.insulation = LW_INSULATION_THHN;
    question.ambient_f = 104;
    question.terminals = LW_TERMINALS_75C;

    lw_ampacity_answer answer = lw_ampacity_answer_init();
    if (lw_ampacity(code, &question, &answer, &working, &error) != LW_STATUS_OK) {
        lw_code_free(code);
        return failed(error);
    }

    if (answer.outcome == LW_OUTCOME_HOLDS && lw_governor_word(answer.governed_by, &word, NULL) == LW_STATUS_OK) {
        printf("%g A, governed by: %s\n", answer.usable_a, word.data);
    } else if (lw_working_gap(working, &text, NULL) == LW_STATUS_OK && text.data) {
        printf("%s\n", text.data);
    }
    if (answer.assumed & LW_ASSUMED_THREE_CONDUCTORS) puts("assumed: three conductors carry current");
    if (lw_working_text(working, &text, NULL) == LW_STATUS_OK) fputs(text.data, stdout);

    lw_working_free(working);
    lw_code_free(code);
    return answer.outcome == LW_OUTCOME_HOLDS ? 0 : 2;
}
