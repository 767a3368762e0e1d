/* Prints what the command prints, through the C interface: doors check|plan|sequence text|json|checklist SITE.
 * A plan may have a record of the meter: RECORD, the share of its time in percent, and the loads that it holds. The exit
 * status is that of the command. */
#include "border.h"

static int failed(lw_error *error) {
    lw_str message;
    if (lw_error_message(error, &message) == LW_STATUS_OK) fprintf(stderr, "loadworthy: %s\n", message.data);
    lw_error_free(error);
    return 3;
}

int main(int count, char **arguments) {
    lw_error *error = NULL;
    lw_site *site = NULL;
    lw_str text = {NULL, 0};
    lw_outcome outcome = 0;
    size_t len;
    char *document;
    if (count != 4 && count != 7) return 64;
    document = read_file(arguments[3], &len);
    if (lw_site_parse(arguments[3], strlen(arguments[3]), document, len, &site, &error)) {
        free(document);
        return failed(error);
    }
    free(document);
    if (strcmp(arguments[1], "check") == 0) {
        lw_report *report;
        if (lw_site_check(site, NULL, NULL, &report, &error)) return failed(error);
        lw_site_free(site);
        lw_report_outcome(report, &outcome, NULL);
        EXPECT((strcmp(arguments[2], "json") ? lw_report_text : lw_report_json)(report, &text, NULL) == LW_STATUS_OK);
        fwrite(text.data, 1, text.len, stdout);
        lw_report_free(report);
    } else if (strcmp(arguments[1], "plan") == 0) {
        lw_plan *plan;
        lw_plan_options options = lw_plan_options_init();
        char *record = NULL;
        if (count == 7) {
            options.record = record = read_file(arguments[4], &options.record_len);
            options.record_name = arguments[4];
            options.record_name_len = strlen(arguments[4]);
            options.record_share_percent = strtod(arguments[5], NULL);
            options.record_for = arguments[6];
            options.record_for_len = strlen(arguments[6]);
        }
        if (lw_site_plan(site, NULL, count == 7 ? &options : NULL, &plan, &error)) {
            free(record);
            return failed(error);
        }
        free(record);
        lw_site_free(site);
        lw_plan_outcome(plan, &outcome, NULL);
        EXPECT((strcmp(arguments[2], "json") ? lw_plan_text : lw_plan_json)(plan, &text, NULL) == LW_STATUS_OK);
        fwrite(text.data, 1, text.len, stdout);
        lw_plan_free(plan);
    } else {
        lw_sequence *sequence;
        if (lw_site_sequence(site, NULL, &sequence, &error)) return failed(error);
        lw_site_free(site);
        lw_sequence_outcome(sequence, &outcome, NULL);
        if (strcmp(arguments[2], "checklist") == 0) {
            EXPECT(lw_sequence_checklist(sequence, &text, NULL) == LW_STATUS_OK);
        } else {
            EXPECT((strcmp(arguments[2], "json") ? lw_sequence_text : lw_sequence_json)(sequence, &text, NULL) == 0);
        }
        fwrite(text.data, 1, text.len, stdout);
        lw_sequence_free(sequence);
    }
    if (failures) return 70;
    return outcome == LW_OUTCOME_HOLDS ? 0 : outcome == LW_OUTCOME_FAILS ? 1 : 2;
}
