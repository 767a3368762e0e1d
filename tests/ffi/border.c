/* Attacks the border: what a program may get wrong and the library can see comes back as a status, never as a crash, and
 * never as "holds". What it cannot see, the header leaves to the program, and is not tried here. */
#define _POSIX_C_SOURCE 200809L
#include "border.h"
#include <pthread.h>
#include <stdint.h>

static lw_code *code;
static char *document;
static size_t document_len;

static uint64_t state = 88172645463325252u;

static uint64_t random_bits(void) {
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return state;
}

/* The text of an error is there, ends with its NUL, and the error is freed. */
static lw_status spent(lw_status status, lw_error **error) {
    lw_str message = {NULL, 0}, place = {NULL, 0};
    lw_status of_error = -1;
    EXPECT((*error != NULL) == (status != LW_STATUS_OK));
    if (*error) {
        EXPECT(lw_error_message(*error, &message) == LW_STATUS_OK && message.len > 0);
        EXPECT(message.data && strlen(message.data) == message.len);
        EXPECT(lw_error_place(*error, &place) == LW_STATUS_OK && place.data && strlen(place.data) == place.len);
        EXPECT(lw_error_status(*error, &of_error) == LW_STATUS_OK && of_error == status);
        EXPECT(lw_error_free(*error) == LW_STATUS_OK);
        *error = NULL;
    }
    return status;
}


/* What every question must bear: NULL, misaligned and wrongly sized structs, older and newer ones, and any bits. The last argument
 * puts pointers into a struct that was filled at random. */
#define ATTACK(function, name, ...)                                                                                    \
    static void attack_##name(void) {                                                                                  \
        union {                                                                                                        \
            lw_##name##_question question;                                                                             \
            unsigned char bytes[sizeof(lw_##name##_question) + 64];                                                    \
        } in;                                                                                                          \
        lw_##name##_question *const question = &in.question;                                                           \
        ANSWER_##name answer;                                                                                          \
        unsigned char loose[sizeof(ANSWER_##name) + sizeof in + 16];                                                   \
        lw_error *error = NULL;                                                                                        \
        lw_working *working = NULL;                                                                                    \
        size_t round, at;                                                                                              \
        memset(&in, 0, sizeof in);                                                                                     \
        memset(loose, 0, sizeof loose);                                                                                \
        memset(&answer, 0, sizeof answer);                                                                             \
        answer.struct_size = sizeof answer;                                                                            \
        /* Zeroed but for its size: nothing is stated, or things that exclude each other. */                           \
        question->struct_size = sizeof *question;                                                                      \
        /* (Of a load alone zeros are a statement: 0 A and 0 A.) */                                                    \
        if (spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_OK) {                          \
            EXPECT(strcmp(#name, "continuous_load") == 0);                                                             \
        } else {                                                                                                       \
            EXPECT(answer.outcome == LW_OUTCOME_CANNOT_TELL);                                                          \
        }                                                                                                              \
        *question = lw_##name##_question_init();                                                                       \
        EXPECT(spent(function(code, question, &answer, &working, &error), &error) != LW_STATUS_OK);                    \
        EXPECT(working == NULL && answer.outcome == LW_OUTCOME_CANNOT_TELL);                                           \
        EXPECT(spent(function(NULL, question, &answer, NULL, &error), &error) == LW_STATUS_NULL_POINTER);              \
        EXPECT(spent(function(code, NULL, &answer, NULL, &error), &error) == LW_STATUS_NULL_POINTER);                  \
        EXPECT(spent(function(code, question, NULL, NULL, &error), &error) == LW_STATUS_NULL_POINTER);                 \
        EXPECT(function(NULL, NULL, NULL, NULL, NULL) == LW_STATUS_NULL_POINTER);                                      \
        /* Not aligned: one byte beyond where it should lie. */                                                        \
        at = 1 + (sizeof(void *) - (uintptr_t)loose % sizeof(void *)) % sizeof(void *);                                \
        EXPECT(spent(function(code, (const lw_##name##_question *)(const void *)(loose + at), &answer, NULL, &error),  \
                     &error) == LW_STATUS_MISALIGNED);                                                                 \
        EXPECT(spent(function(code, question, (ANSWER_##name *)(void *)(loose + at), NULL, &error), &error) ==         \
               LW_STATUS_MISALIGNED);                                                                                  \
        EXPECT(spent(function((const lw_code *)(const void *)(loose + at), question, &answer, NULL, &error), &error)   \
               == LW_STATUS_MISALIGNED);                                                                               \
        EXPECT(function(code, question, &answer, NULL, (lw_error **)(void *)(loose + at)) == LW_STATUS_MISALIGNED);    \
        EXPECT(spent(function(code, question, &answer, (lw_working **)(void *)(loose + at), &error), &error) ==        \
               LW_STATUS_MISALIGNED);                                                                                  \
        /* Sizes that no header ever had. */                                                                           \
        question->struct_size = 0;                                                                                     \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        question->struct_size = sizeof(size_t);                                                                        \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        question->struct_size = SIZE_MAX;                                                                              \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        question->struct_size = sizeof *question;                                                                      \
        answer.struct_size = 1;                                                                                        \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        answer.struct_size = SIZE_MAX;                                                                                 \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        answer.struct_size = sizeof answer;                                                                            \
        /* Newer than this library: right while the new fields are zero. */                                            \
        question->struct_size = sizeof in.bytes;                                                                       \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) != LW_STATUS_STRUCT_SIZE);               \
        in.bytes[sizeof in.bytes - 1] = 1;                                                                             \
        EXPECT(spent(function(code, question, &answer, NULL, &error), &error) == LW_STATUS_STRUCT_SIZE);               \
        for (round = 0; round < rounds; ++round) {                                                                     \
            size_t byte;                                                                                               \
            *question = lw_##name##_question_init();                                                                   \
            for (byte = sizeof(size_t); byte + sizeof(int32_t) <= sizeof *question; byte += sizeof(int32_t)) {         \
                /* Small numbers, which may be choices, more often than any bits. */                                   \
                const uint64_t bits = random_bits();                                                                   \
                const int32_t word = bits % 8 ? (int32_t)(bits >> 8) % 40 : (int32_t)(bits >> 16);                     \
                if (bits % 3 == 0) memcpy(in.bytes + byte, &word, sizeof word);                                        \
            }                                                                                                          \
            __VA_ARGS__;                                                                                               \
            memset(&answer, 0xA5, sizeof answer);                                                                      \
            answer.struct_size = sizeof answer;                                                                        \
            const lw_status status = spent(function(code, question, &answer, round % 2 ? &working : NULL, &error), &error); \
            EXPECT(status >= LW_STATUS_OK && status < LW_STATUS_PANIC);                                                \
            EXPECT(answer.struct_size == sizeof answer);                                                               \
            EXPECT(answer.outcome >= LW_OUTCOME_HOLDS && answer.outcome <= LW_OUTCOME_CANNOT_TELL);                    \
            EXPECT(status == LW_STATUS_OK || answer.outcome == LW_OUTCOME_CANNOT_TELL);                                \
            EXPECT((working != NULL) == (status == LW_STATUS_OK && round % 2));                                        \
            EXPECT(lw_working_free(working) == LW_STATUS_OK);                                                          \
            working = NULL;                                                                                            \
        }                                                                                                              \
    }

typedef lw_ampacity_answer ANSWER_ampacity;
typedef lw_cord_answer ANSWER_cord;
typedef lw_continuous_load_answer ANSWER_continuous_load;
typedef lw_device_answer ANSWER_largest_device;
typedef lw_device_answer ANSWER_next_device;
typedef lw_conductor_answer ANSWER_equipment_grounding;
typedef lw_conductor_answer ANSWER_grounding_electrode;
typedef lw_conductor_answer ANSWER_dwelling_service;
typedef lw_plug_answer ANSWER_plug;
typedef lw_voltage_drop_answer ANSWER_voltage_drop;
typedef lw_size_circuit_answer ANSWER_size_circuit;
typedef lw_size_cord_answer ANSWER_size_cord;
typedef lw_size_raceway_answer ANSWER_size_raceway;
typedef lw_size_box_answer ANSWER_size_box;

static size_t rounds = 2000;
static lw_segment segments[3];
static lw_ampacity_question conductor;
static lw_occupant occupants[3];
static lw_counted counted[3];

/* Fields of any bits behind the size of a struct. */
static void scatter(void *where, size_t size) {
    unsigned char *bytes = where;
    size_t byte;
    for (byte = sizeof(size_t); byte + sizeof(int32_t) <= size; byte += sizeof(int32_t)) {
        const uint64_t bits = random_bits();
        const int32_t word = bits % 8 ? (int32_t)(bits >> 8) % 40 : (int32_t)(bits >> 16);
        if (bits % 4 == 0) memcpy(bytes + byte, &word, sizeof word);
    }
}

ATTACK(lw_ampacity, ampacity, (void)0)
ATTACK(lw_cord_ampacity, cord, (void)0)
ATTACK(lw_continuous_load, continuous_load, (void)0)
ATTACK(lw_largest_device, largest_device, (void)0)
ATTACK(lw_next_device, next_device, (void)0)
ATTACK(lw_equipment_grounding, equipment_grounding, (void)0)
ATTACK(lw_grounding_electrode, grounding_electrode, (void)0)
ATTACK(lw_dwelling_service, dwelling_service, (void)0)
ATTACK(lw_plug_fit, plug, (void)0)
ATTACK(lw_voltage_drop, voltage_drop, {
    for (at = 0; at < 3; ++at) segments[at] = lw_segment_init(), scatter(&segments[at], sizeof segments[at]);
    question->segments = segments;
    question->segment_count = (size_t)(random_bits() % 4);
})
ATTACK(lw_size_circuit, size_circuit, {
    conductor = lw_ampacity_question_init();
    conductor.material = LW_MATERIAL_COPPER;
    conductor.insulation = LW_INSULATION_THWN_2;
    scatter(&conductor, sizeof conductor);
    question->conductor = &conductor;
})
ATTACK(lw_size_cord, size_cord, (void)0)
ATTACK(lw_size_raceway, size_raceway, {
    for (at = 0; at < 3; ++at) occupants[at] = lw_occupant_init(), scatter(&occupants[at], sizeof occupants[at]);
    question->occupants = occupants;
    question->occupant_count = (size_t)(random_bits() % 4);
})
ATTACK(lw_size_box, size_box, {
    for (at = 0; at < 3; ++at) counted[at] = lw_counted_init(), scatter(&counted[at], sizeof counted[at]);
    question->conductors = question->devices = counted;
    question->conductor_count = (size_t)(random_bits() % 4);
    question->device_count = (size_t)(random_bits() % 4);
})

/* Numbers that are no quantities, one by one, each with the field that it stands in. */
static void numbers(void) {
    static const double wrong[] = {-1, 1e300, -1e300, 5e-324, 1e-9, 0.1 + 0.2, INFINITY, -INFINITY, 100000.000001,
                                   /* With its factor it is above 100000 A, which is not shown smaller than it is. */
                                   100000, 80000.000001};
    lw_continuous_load_question question = lw_continuous_load_question_init();
    lw_continuous_load_answer answer = lw_continuous_load_answer_init();
    lw_error *error = NULL;
    lw_str place;
    size_t at;
    question.non_continuous_a = 0;
    for (at = 0; at < sizeof wrong / sizeof *wrong; ++at) {
        question.continuous_a = wrong[at];
        EXPECT(lw_continuous_load(code, &question, &answer, NULL, &error) == LW_STATUS_BAD_NUMBER);
        EXPECT(lw_error_place(error, &place) == LW_STATUS_OK && strcmp(place.data, "question.continuous_a") == 0);
        spent(LW_STATUS_BAD_NUMBER, &error);
    }
    question.continuous_a = 80000;
    EXPECT(lw_continuous_load(code, &question, &answer, NULL, NULL) == LW_STATUS_OK && answer.device_a == 100000);
    question.continuous_a = NAN;
    EXPECT(lw_continuous_load(code, &question, &answer, NULL, NULL) == LW_STATUS_NOT_STATED);
}

static void choices(void) {
    static const int32_t wrong[] = {-1, 26, 1000, INT32_MIN, INT32_MAX};
    lw_ampacity_question question = lw_ampacity_question_init();
    lw_ampacity_answer answer = lw_ampacity_answer_init();
    lw_error *error = NULL;
    size_t at;
    question.material = LW_MATERIAL_COPPER;
    question.size = 12;
    for (at = 0; at < sizeof wrong / sizeof *wrong; ++at) {
        question.insulation = wrong[at];
        EXPECT(spent(lw_ampacity(code, &question, &answer, NULL, &error), &error) == LW_STATUS_BAD_CHOICE);
    }
    question.insulation = LW_INSULATION_THHN;
    question.ambient_c = 30;
    question.ambient_f = 86;
    EXPECT(spent(lw_ampacity(code, &question, &answer, NULL, &error), &error) == LW_STATUS_CONTRADICTION);
    /* Three editions are carried, and accepted cells must be those of the book. */
    {
        lw_code *other = (lw_code *)(uintptr_t)8;
        static const char cell[] = "[[cell]]\ntable = \"ampacity-free-air\"\nrow = \"10 AWG\"\ncolumn = \"copper_75c_a\"\n"
                                   "value = \"51\"\nread_by = \"nobody\"\n";
        EXPECT(spent(lw_code_new(2024, NULL, 0, &other, &error), &error) == LW_STATUS_BAD_CHOICE && !other);
        EXPECT(spent(lw_code_new(0, NULL, 0, &other, &error), &error) == LW_STATUS_NOT_STATED && !other);
        EXPECT(spent(lw_code_new(2017, NULL, 7, &other, &error), &error) == LW_STATUS_NULL_POINTER && !other);
        EXPECT(spent(lw_code_new(2017, "\xff\xfe", 2, &other, &error), &error) == LW_STATUS_NOT_UTF8 && !other);
        EXPECT(spent(lw_code_new(2017, cell, sizeof cell - 1, &other, &error), &error) == LW_STATUS_DOCUMENT && !other);
        EXPECT(spent(lw_code_new(2017, "x", SIZE_MAX, &other, &error), &error) == LW_STATUS_TOO_LARGE && !other);
        EXPECT(spent(lw_code_new(2017, NULL, 0, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    }
}

static void documents(void) {
    lw_site *site = (lw_site *)(uintptr_t)8;
    lw_report *report = (lw_report *)(uintptr_t)8;
    lw_plan *plan = NULL;
    lw_sequence *sequence = NULL;
    lw_error *error = NULL;
    lw_problem problem = lw_problem_init();
    lw_finding finding = lw_finding_init();
    lw_step step = lw_step_init();
    lw_plan_options options = lw_plan_options_init();
    lw_check_options check = lw_check_options_init();
    lw_outcome outcome = 0;
    lw_str text;
    size_t count = 0, at;
    char *broken;

    EXPECT(spent(lw_site_parse(NULL, 0, NULL, 0, &site, &error), &error) == LW_STATUS_DOCUMENT && !site);
    EXPECT(spent(lw_site_parse("a", 1, NULL, 9, &site, &error), &error) == LW_STATUS_NULL_POINTER && !site);
    EXPECT(spent(lw_site_parse(NULL, 9, "a", 1, &site, &error), &error) == LW_STATUS_NULL_POINTER && !site);
    EXPECT(spent(lw_site_parse("a", 1, "a", SIZE_MAX, &site, &error), &error) == LW_STATUS_TOO_LARGE && !site);
    EXPECT(spent(lw_site_parse("a", 1, "a", 4194305, &site, &error), &error) == LW_STATUS_TOO_LARGE && !site);
    EXPECT(spent(lw_site_parse("a", SIZE_MAX / 2, "a", 1, &site, &error), &error) == LW_STATUS_TOO_LARGE && !site);
    EXPECT(spent(lw_site_parse("\xc3\x28", 2, "a", 1, &site, &error), &error) == LW_STATUS_NOT_UTF8 && !site);
    EXPECT(spent(lw_site_parse("a", 1, document, document_len, NULL, &error), &error) == LW_STATUS_NULL_POINTER);

    /* Not UTF-8, and a bare number: the error lists them with their places. */
    EXPECT(lw_site_parse("a.toml", 6, "name = \"\xff\"", 10, &site, &error) == LW_STATUS_DOCUMENT);
    EXPECT(lw_error_problem_count(error, &count) == LW_STATUS_OK && count == 1);
    EXPECT(lw_error_problem(error, 0, &problem) == LW_STATUS_OK && strcmp(problem.code.data, "not-text") == 0);
    EXPECT(problem.line == 1 && problem.column == 9 && strcmp(problem.file.data, "a.toml") == 0);
    EXPECT(lw_error_problem(error, 1, &problem) == LW_STATUS_NO_SUCH_INDEX && problem.code.data == NULL);
    EXPECT(lw_error_problem(error, SIZE_MAX, &problem) == LW_STATUS_NO_SUCH_INDEX);
    EXPECT(lw_error_problem(NULL, 0, &problem) == LW_STATUS_NULL_POINTER);
    EXPECT(lw_error_message(error, NULL) == LW_STATUS_NULL_POINTER);
    spent(LW_STATUS_DOCUMENT, &error);
    {
        static const char bare[] = "[site]\nname = \"b\"\ncode = \"nec-2023\"\nambient = 25\n";
        EXPECT(lw_site_parse("b", 1, bare, sizeof bare - 1, &site, &error) == LW_STATUS_DOCUMENT);
    }
    EXPECT(lw_error_problem(error, 0, &problem) == LW_STATUS_OK && strcmp(problem.code.data, "missing-unit") == 0);
    EXPECT(problem.line == 4 && problem.column == 11);
    spent(LW_STATUS_DOCUMENT, &error);

    /* JSON, with an edition that is not carried. */
    {
        static const char json[] = "{\"site\": {\"name\": \"shed\", \"code\": \"nec-1999\"}}";
        EXPECT(lw_site_parse("c", 1, json, sizeof json - 1, &site, NULL) == LW_STATUS_OK && site);
        EXPECT(spent(lw_site_check(site, NULL, NULL, &report, &error), &error) == LW_STATUS_BAD_CHOICE && !report);
        EXPECT(spent(lw_site_plan(site, NULL, NULL, &plan, &error), &error) == LW_STATUS_BAD_CHOICE && !plan);
        EXPECT(spent(lw_site_sequence(site, NULL, &sequence, &error), &error) == LW_STATUS_BAD_CHOICE && !sequence);
        EXPECT(spent(lw_site_check(site, code, NULL, &report, &error), &error) == LW_STATUS_OK && report);
        EXPECT(lw_report_outcome(report, &outcome, NULL) == LW_STATUS_OK && outcome == LW_OUTCOME_CANNOT_TELL);
        EXPECT(spent(lw_site_plan(site, code, NULL, &plan, &error), &error) == LW_STATUS_IMPOSSIBLE && !plan);
        EXPECT(lw_report_free(report) == LW_STATUS_OK && lw_site_free(site) == LW_STATUS_OK);
    }

    /* A document with single bytes spoilt reads, or says why not; whatever reads can be judged. */
    broken = malloc(document_len);
    if (!broken) exit(3);
    for (at = 0; at < rounds / 20; ++at) {
        memcpy(broken, document, document_len);
        broken[random_bits() % document_len] = (char)random_bits();
        if (spent(lw_site_parse("d.toml", 6, broken, document_len, &site, &error), &error) == LW_STATUS_OK) {
            EXPECT(spent(lw_site_check(site, code, NULL, &report, &error), &error) == LW_STATUS_OK);
            EXPECT(lw_report_json(report, &text, NULL) == LW_STATUS_OK && text.data && text.data[text.len] == 0);
            lw_report_free(report);
            lw_site_free(site);
        }
    }
    free(broken);

    EXPECT(lw_site_parse("e.toml", 6, document, document_len, &site, NULL) == LW_STATUS_OK);
    check.working = 9;
    EXPECT(spent(lw_site_check(site, NULL, &check, &report, &error), &error) == LW_STATUS_BAD_CHOICE && !report);
    check.working = LW_YES;
    EXPECT(spent(lw_site_check(site, NULL, &check, &report, &error), &error) == LW_STATUS_OK);
    EXPECT(spent(lw_site_check(NULL, NULL, NULL, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(lw_report_finding_count(report, &count, NULL) == LW_STATUS_OK && count > 10);
    EXPECT(spent(lw_report_finding(report, count, &finding, &error), &error) == LW_STATUS_NO_SUCH_INDEX);
    EXPECT(spent(lw_report_finding(report, SIZE_MAX, &finding, &error), &error) == LW_STATUS_NO_SUCH_INDEX);
    EXPECT(spent(lw_report_step(report, 0, SIZE_MAX, &step, &error), &error) == LW_STATUS_NO_SUCH_INDEX);
    EXPECT(lw_site_free(site) == LW_STATUS_OK);
    EXPECT(spent(lw_report_mended(report, SIZE_MAX, &site, &error), &error) == LW_STATUS_NO_SUCH_INDEX && !site);
    for (at = 0; at < count; ++at) {
        size_t number;
        EXPECT(lw_report_finding(report, at, &finding, NULL) == LW_STATUS_OK);
        EXPECT(finding.rule.data[finding.rule.len] == 0 && finding.message.len > 0 && finding.outcome != 0);
        for (number = 0; number < finding.step_count; ++number) {
            EXPECT(lw_report_step(report, at, number, &step, NULL) == LW_STATUS_OK && step.what.len > 0);
        }
    }
    EXPECT(lw_report_free(report) == LW_STATUS_OK);

    EXPECT(lw_site_parse("e.toml", 6, document, document_len, &site, NULL) == LW_STATUS_OK);
    options.start_hour = 24;
    EXPECT(spent(lw_site_plan(site, NULL, &options, &plan, &error), &error) == LW_STATUS_BAD_NUMBER && !plan);
    options.start_hour = -1;
    EXPECT(spent(lw_site_plan(site, NULL, &options, &plan, &error), &error) == LW_STATUS_BAD_NUMBER && !plan);
    options.start_hour = 0;
    options.source = "nothing";
    options.source_len = 7;
    EXPECT(spent(lw_site_plan(site, NULL, &options, &plan, &error), &error) == LW_STATUS_IMPOSSIBLE && !plan);
    options.source_len = SIZE_MAX;
    EXPECT(spent(lw_site_plan(site, NULL, &options, &plan, &error), &error) == LW_STATUS_TOO_LARGE && !plan);
    /* The record of a meter: none, of any bytes, without a share, and in options of a header that knew none. */
    options = lw_plan_options_init();
    options.record_share_percent = 95;
#define PLAN() spent(lw_site_plan(site, NULL, &options, &plan, &error), &error)
    EXPECT(PLAN() == LW_STATUS_NOT_STATED && !plan);
    options.record = "time,watts\n2025-11-03T00:00:00,300\n2025-11-03T01:00:00,400\n";
    options.record_len = strlen(options.record);
    EXPECT(PLAN() == LW_STATUS_OK && lw_plan_text(plan, &text, NULL) == LW_STATUS_OK);
    EXPECT(strstr(text.data, "record: 100 % of its time is recorded") && lw_plan_free(plan) == LW_STATUS_OK);
    options.record_share_percent = 100.0001;
    EXPECT(PLAN() == LW_STATUS_BAD_NUMBER && !plan);
    options.record_share_percent = 100;
    EXPECT(PLAN() == LW_STATUS_OK && lw_plan_free(plan) == LW_STATUS_OK);
    options.record_share_percent = NAN;
    EXPECT(PLAN() == LW_STATUS_NOT_STATED && !plan);
    options.struct_size = offsetof(lw_plan_options, record);
    EXPECT(PLAN() == LW_STATUS_OK && lw_plan_free(plan) == LW_STATUS_OK);
    options.struct_size = offsetof(lw_plan_options, record) - 1;
    EXPECT(PLAN() == LW_STATUS_STRUCT_SIZE && !plan);
    options.struct_size = sizeof options;
    options.record_share_percent = 95;
    options.record_len = SIZE_MAX;
    EXPECT(PLAN() == LW_STATUS_TOO_LARGE && !plan);
    options.record_len = 20;
    EXPECT(PLAN() == LW_STATUS_DOCUMENT && !plan);
    options.record = "time,\xff";
    options.record_len = 6;
    EXPECT(PLAN() == LW_STATUS_NOT_UTF8 && !plan);
    options.record = "<feed>";
    EXPECT(PLAN() == LW_STATUS_DOCUMENT && !plan);
    options.record = NULL;
    EXPECT(PLAN() == LW_STATUS_NULL_POINTER && !plan);
#undef PLAN
    {
        lw_site *changed = NULL;
        EXPECT(spent(lw_site_with_field(site, "nothing", 7, "1", 1, &changed, &error), &error) != 0 && !changed);
        EXPECT(spent(lw_site_with_field(site, "\x80", 1, "1", 1, &changed, &error), &error) == LW_STATUS_NOT_UTF8);
        EXPECT(spent(lw_site_with_components(site, "f", 1, "[", 1, &changed, &error), &error) == LW_STATUS_DOCUMENT);
        EXPECT(spent(lw_site_verify_steps(site, NULL, "g", 1, "[", 1, &sequence, &error), &error) == LW_STATUS_DOCUMENT);
        EXPECT(!changed && !sequence);
    }
    EXPECT(lw_site_free(site) == LW_STATUS_OK);
}

/* Questions by name. */
static void by_name(void) {
    lw_str names[40], values[40], text;
    lw_answer *answer = (lw_answer *)(uintptr_t)8;
    lw_brief brief = lw_brief_init();
    lw_error *error = NULL;
    size_t at;
    unsigned char loose[sizeof(lw_str) * 2];
    lw_str *const misaligned = (lw_str *)(void *)(loose + 1 + (sizeof(void *) - (uintptr_t)loose % sizeof(void *)) % sizeof(void *));
    for (at = 0; at < 40; ++at) names[at] = values[at] = lw_text(NULL);
    names[0] = lw_text("size"), values[0] = lw_text("8 AWG");
    names[1] = lw_text("material"), values[1] = lw_text("copper");
    names[2] = lw_text("insulation"), values[2] = lw_text("THHN");
#define ASK(question, count) spent(lw_ask(code, question, strlen(question), names, values, count, &answer, &error), &error)
    /* What has no value is not stated, whatever its name. */
    EXPECT(ASK("ampacity", 40) == LW_STATUS_OK && answer);
    EXPECT(lw_answer_brief(answer, &brief, NULL) == LW_STATUS_OK && brief.outcome == LW_OUTCOME_HOLDS);
    /* Unmarked terminals of a small circuit: the 60 degree column of Table 310.16, 110.14(C)(1). */
    EXPECT(strcmp(brief.figure.data, "40 A") == 0 && strcmp(brief.value.data, "40") == 0);
    EXPECT(strcmp(brief.unit.data, "A") == 0 && strcmp(brief.governed_by.data, "terminals") == 0);
    EXPECT(lw_answer_text(answer, &text, NULL) == LW_STATUS_OK && strlen(text.data) == text.len);
    {
        const char *first = text.data;
        EXPECT(lw_answer_text(answer, &text, NULL) == LW_STATUS_OK && text.data == first);
    }
    brief.struct_size = 3;
    EXPECT(spent(lw_answer_brief(answer, &brief, &error), &error) == LW_STATUS_STRUCT_SIZE);
    EXPECT(spent(lw_answer_brief(answer, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_answer_json(NULL, &text, &error), &error) == LW_STATUS_NULL_POINTER && !text.data);
    EXPECT(spent(lw_answer_text(answer, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(lw_answer_free(answer) == LW_STATUS_OK && lw_answer_free(NULL) == LW_STATUS_OK);
    /* No question, none of that name, nothing stated. */
    EXPECT(ASK("", 3) == LW_STATUS_BAD_CHOICE && !answer);
    EXPECT(ASK("Ampacity", 3) == LW_STATUS_BAD_CHOICE && ASK("kit", 3) == LW_STATUS_BAD_CHOICE);
    EXPECT(ASK("\xff", 3) == LW_STATUS_NOT_UTF8 && ASK("ampacity", 0) == LW_STATUS_NOT_UNDERSTOOD);
    EXPECT(spent(lw_ask(code, NULL, 4, names, values, 3, &answer, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_ask(code, "x", SIZE_MAX, names, values, 3, &answer, &error), &error) == LW_STATUS_TOO_LARGE);
    EXPECT(spent(lw_ask(NULL, "cord", 4, names, values, 3, &answer, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_ask(code, "cord", 4, names, values, 3, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_ask(code, "cord", 4, NULL, NULL, 0, &answer, &error), &error) == LW_STATUS_NOT_UNDERSTOOD);
    /* Arrays that are none, and counts that no array has. */
    EXPECT(spent(lw_ask(code, "cord", 4, NULL, values, 3, &answer, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_ask(code, "cord", 4, names, NULL, 3, &answer, &error), &error) == LW_STATUS_NULL_POINTER);
    EXPECT(spent(lw_ask(code, "cord", 4, misaligned, values, 1, &answer, &error), &error) == LW_STATUS_MISALIGNED);
    EXPECT(ASK("ampacity", SIZE_MAX) == LW_STATUS_TOO_LARGE && ASK("ampacity", 4097) == LW_STATUS_TOO_LARGE);
    EXPECT(ASK("ampacity", SIZE_MAX / sizeof(lw_str) + 1) == LW_STATUS_TOO_LARGE && !answer);
    /* Texts that are none: the place is the one that is wrong. */
    values[1].data = "\xc3\x28", values[1].len = 2;
    EXPECT(lw_ask(code, "ampacity", 8, names, values, 3, &answer, &error) == LW_STATUS_NOT_UTF8 && !answer);
    EXPECT(lw_error_place(error, &text) == LW_STATUS_OK && strcmp(text.data, "values[1]") == 0);
    spent(LW_STATUS_NOT_UTF8, &error);
    values[1].data = NULL;
    EXPECT(ASK("ampacity", 3) == LW_STATUS_NULL_POINTER);
    values[1].data = "copper", values[1].len = SIZE_MAX;
    EXPECT(ASK("ampacity", 3) == LW_STATUS_TOO_LARGE);
    values[1] = lw_text("cop\ner"), names[1] = lw_text("material");
    EXPECT(ASK("ampacity", 3) == LW_STATUS_NOT_UNDERSTOOD);
    values[1] = lw_text("");
    EXPECT(ASK("ampacity", 3) == LW_STATUS_NOT_UNDERSTOOD);
    values[1].data = "cop\0er", values[1].len = 6;
    EXPECT(ASK("ampacity", 3) == LW_STATUS_NOT_UNDERSTOOD);
    values[1] = lw_text("copper");
    /* Names: unknown, none, of the command line's own, and one said twice; with dashes or underscores. */
    names[3] = lw_text("no-such"), values[3] = lw_text("1");
    EXPECT(lw_ask(code, "ampacity", 8, names, values, 4, &answer, &error) == LW_STATUS_NOT_UNDERSTOOD && !answer);
    EXPECT(lw_error_place(error, &text) == LW_STATUS_OK && strcmp(text.data, "no-such") == 0);
    EXPECT(lw_error_message(error, &text) == LW_STATUS_OK && strstr(text.data, "--no-such") == text.data);
    spent(LW_STATUS_NOT_UNDERSTOOD, &error);
    names[3] = lw_text(NULL);
    EXPECT(ASK("ampacity", 4) == LW_STATUS_NOT_UNDERSTOOD);
    names[3] = lw_text("format");
    EXPECT(ASK("ampacity", 4) == LW_STATUS_NOT_UNDERSTOOD);
    names[3] = names[0], values[3] = values[0];
    EXPECT(ASK("ampacity", 4) == LW_STATUS_NOT_UNDERSTOOD);
    values[3] = lw_text("6");
    names[3] = lw_text("current-carrying");
    EXPECT(ASK("ampacity", 4) == LW_STATUS_OK && lw_answer_free(answer) == LW_STATUS_OK);
    names[3] = lw_text("current_carrying");
    EXPECT(ASK("ampacity", 4) == LW_STATUS_OK && lw_answer_free(answer) == LW_STATUS_OK);
    /* Texts of any bytes. */
    for (at = 0; at < rounds; ++at) {
        unsigned char any[24];
        size_t byte;
        for (byte = 0; byte < sizeof any; ++byte) any[byte] = (unsigned char)(random_bits() % (at % 2 ? 128 : 256));
        values[at % 4].data = (const char *)any;
        values[at % 4].len = (size_t)(random_bits() % sizeof any);
        if (ASK("ampacity", 4) == LW_STATUS_OK) EXPECT(lw_answer_free(answer) == LW_STATUS_OK);
        values[0] = lw_text("8 AWG"), values[1] = lw_text("copper"), values[2] = lw_text("THHN"), values[3] = lw_text("6");
    }
#undef ASK
}

static void nothing_to_free(void) {
    EXPECT(lw_code_free(NULL) == LW_STATUS_OK && lw_site_free(NULL) == LW_STATUS_OK);
    EXPECT(lw_report_free(NULL) == LW_STATUS_OK && lw_plan_free(NULL) == LW_STATUS_OK);
    EXPECT(lw_sequence_free(NULL) == LW_STATUS_OK && lw_working_free(NULL) == LW_STATUS_OK);
    EXPECT(lw_error_free(NULL) == LW_STATUS_OK);
    EXPECT(lw_report_free((lw_report *)(uintptr_t)9) == LW_STATUS_MISALIGNED);
    EXPECT(lw_version(NULL, NULL, NULL, NULL) == LW_STATUS_OK);
}

static int32_t stop(void *user, size_t done) {
    *(size_t *)user = done;
    return 1;
}

static int32_t go_on(void *user, size_t done) {
    *(size_t *)user = done;
    return 0;
}

static void batches(void) {
    enum { ROWS = 70000 };
    static const char *const names[] = {"material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a"};
    static double numbers_of[3][ROWS], ampacity[ROWS];
    static uint8_t codes[ROWS], outcome[ROWS];
    static uint16_t reason[ROWS];
    static const lw_str words[3] = {{"copper", 6}, {"12 AWG", 6}, {"THWN-2", 6}};
    lw_column columns[6];
    lw_batch_answers answers = lw_batch_answers_init(), plain_answers;
    lw_batch_options options = lw_batch_options_init();
    lw_error *error = NULL;
    size_t done = 0, at, column;
    for (at = 0; at < ROWS; ++at) numbers_of[0][at] = 16, numbers_of[1][at] = 0, numbers_of[2][at] = 20;
    for (column = 0; column < 6; ++column) {
        columns[column] = lw_column_init();
        columns[column].name = names[column];
        columns[column].name_len = strlen(names[column]);
        columns[column].layout = column < 3 ? LW_LAYOUT_U8 : LW_LAYOUT_F64;
        columns[column].data = column < 3 ? (const void *)codes : (const void *)numbers_of[column - 3];
        columns[column].rows = ROWS;
        if (column < 3) columns[column].words = &words[column], columns[column].word_count = 1;
    }
    answers.rows = ROWS;
    answers.outcome = outcome;
    answers.reason = reason;
    answers.ampacity_a = ampacity;
    plain_answers = answers;
#define JUDGE() spent(lw_batch_judge(code, columns, 6, &answers, &options, &error), &error)
    EXPECT(JUDGE() == LW_STATUS_OK && outcome[0] == LW_OUTCOME_HOLDS && outcome[ROWS - 1] == LW_OUTCOME_HOLDS);
    options.threads = 3;
    options.progress = go_on;
    options.user = &done;
    memset(outcome, 0, sizeof outcome);
    EXPECT(JUDGE() == LW_STATUS_OK && outcome[ROWS - 1] == LW_OUTCOME_HOLDS);
    options.threads = 1;
    options.progress = stop;
    EXPECT(JUDGE() == LW_STATUS_STOPPED && outcome[0] == 0 && outcome[ROWS - 1] == 0);
    options = lw_batch_options_init();
    options.threads = -1;
    EXPECT(JUDGE() == LW_STATUS_BAD_NUMBER);
    options.threads = 1025;
    EXPECT(JUDGE() == LW_STATUS_BAD_NUMBER);
    options.threads = 0;
    /* Rows that do not agree, and counts that no memory holds. */
    answers.rows = ROWS - 1;
    EXPECT(JUDGE() == LW_STATUS_COLUMNS && outcome[0] == 0);
    answers.rows = SIZE_MAX / 4;
    EXPECT(JUDGE() == LW_STATUS_COLUMNS);
    for (column = 0; column < 6; ++column) columns[column].rows = SIZE_MAX / 4;
    EXPECT(JUDGE() == LW_STATUS_TOO_LARGE);
    for (column = 0; column < 6; ++column) columns[column].rows = ROWS;
    answers = plain_answers;
    columns[3].rows = SIZE_MAX / 2;
    EXPECT(JUDGE() == LW_STATUS_COLUMNS);
    columns[3].rows = ROWS;
    columns[3].data = NULL;
    EXPECT(JUDGE() == LW_STATUS_NULL_POINTER);
    columns[3].data = (const char *)numbers_of[0] + 1;
    EXPECT(JUDGE() == LW_STATUS_MISALIGNED);
    columns[3].data = numbers_of[0];
    columns[3].layout = 99;
    EXPECT(JUDGE() == LW_STATUS_BAD_CHOICE);
    columns[3].layout = LW_LAYOUT_F64;
    columns[3].name = "load";
    columns[3].name_len = 4;
    EXPECT(JUDGE() == LW_STATUS_COLUMNS);
    columns[3].name = names[3];
    columns[3].name_len = strlen(names[3]);
    /* Answers over one another, and over a column. */
    answers.reason = (uint16_t *)(void *)outcome;
    EXPECT(JUDGE() == LW_STATUS_CONTRADICTION);
    answers.reason = reason;
    answers.ampacity_a = numbers_of[1];
    EXPECT(JUDGE() == LW_STATUS_CONTRADICTION);
    answers = plain_answers;
    /* A code beyond the dictionary, and a word that is not UTF-8: those rows alone are not judged. */
    codes[1] = 200;
    EXPECT(JUDGE() == LW_STATUS_OK && outcome[0] == LW_OUTCOME_HOLDS && outcome[1] == LW_OUTCOME_CANNOT_TELL);
    codes[1] = 0;
    {
        static const lw_str bad = {"\xff", 1}, none = {NULL, 0};
        columns[0].words = &bad;
        EXPECT(JUDGE() == LW_STATUS_OK && outcome[0] == LW_OUTCOME_CANNOT_TELL && reason[0] != 0);
        columns[0].words = &none;
        EXPECT(JUDGE() == LW_STATUS_OK && outcome[0] == LW_OUTCOME_CANNOT_TELL && reason[0] != 0);
        columns[0].words = &words[0];
    }
    /* No rows at all is a batch like another; so are no columns, but for what they lack. */
    answers.rows = 0;
    for (column = 0; column < 6; ++column) columns[column].rows = 0;
    EXPECT(JUDGE() == LW_STATUS_OK);
    EXPECT(spent(lw_batch_judge(code, NULL, 0, &answers, NULL, &error), &error) == LW_STATUS_COLUMNS);
    EXPECT(spent(lw_batch_judge(code, columns, SIZE_MAX, &answers, NULL, &error), &error) == LW_STATUS_TOO_LARGE);
    EXPECT(spent(lw_batch_judge(code, columns, 6, NULL, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    {
        lw_str text;
        EXPECT(spent(lw_reason_text(65535, &text, &error), &error) == LW_STATUS_BAD_CHOICE && !text.data);
        EXPECT(spent(lw_governor_word(0, &text, &error), &error) == LW_STATUS_BAD_CHOICE && !text.data);
        EXPECT(spent(lw_governor_word(INT32_MIN, &text, &error), &error) == LW_STATUS_BAD_CHOICE && !text.data);
    }
}

/* Many threads, one site and one report. Its texts are made by whichever thread comes first, or, where `made`, before
 * any of them starts: then none waits for another inside the library, and whoever watches for races sees all there is. */
typedef struct {
    const lw_site *site;
    const lw_report *report;
    const char *text, *json, *message;
} shared_t;

static void *share(void *argument) {
    shared_t *own = argument;
    lw_finding finding = lw_finding_init();
    lw_ampacity_question question = lw_ampacity_question_init();
    lw_ampacity_answer answer = lw_ampacity_answer_init();
    lw_report *report = NULL;
    lw_error *error = NULL;
    lw_str text = {NULL, 0};
    int round;
    question.material = LW_MATERIAL_COPPER;
    question.size = 12;
    question.insulation = LW_INSULATION_THHN;
    EXPECT(lw_report_text(own->report, &text, NULL) == LW_STATUS_OK);
    own->text = text.data;
    EXPECT(lw_report_finding(own->report, 0, &finding, NULL) == LW_STATUS_OK);
    own->message = finding.message.data;
    EXPECT(lw_report_json(own->report, &text, NULL) == LW_STATUS_OK);
    own->json = text.data;
    for (round = 0; round < 20; ++round) {
        EXPECT(lw_ampacity(code, &question, &answer, NULL, NULL) == LW_STATUS_OK && answer.outcome == LW_OUTCOME_HOLDS);
        /* Errors belong to their calls: those of other threads leave this one alone. */
        EXPECT(spent(lw_ampacity(code, NULL, &answer, NULL, &error), &error) == LW_STATUS_NULL_POINTER);
    }
    EXPECT(lw_site_check(own->site, NULL, NULL, &report, NULL) == LW_STATUS_OK);
    EXPECT(lw_report_free(report) == LW_STATUS_OK);
    return NULL;
}

static void threads(int made) {
    enum { COUNT = 8 };
    pthread_t all[COUNT];
    shared_t own[COUNT];
    lw_site *site = NULL;
    lw_report *report = NULL;
    int number;
    EXPECT(lw_site_parse("e.toml", 6, document, document_len, &site, NULL) == LW_STATUS_OK);
    EXPECT(lw_site_check(site, NULL, NULL, &report, NULL) == LW_STATUS_OK);
    if (made) {
        own[0].site = site;
        own[0].report = report;
        share(&own[0]);
    }
    for (number = 0; number < COUNT; ++number) {
        own[number].site = site;
        own[number].report = report;
        if (pthread_create(&all[number], NULL, share, &own[number])) exit(3);
    }
    for (number = 0; number < COUNT; ++number) pthread_join(all[number], NULL);
    for (number = 1; number < COUNT; ++number) {
        EXPECT(own[number].text == own[0].text && own[number].json == own[0].json);
        EXPECT(own[number].message == own[0].message);
    }
    /* A report needs its site no more. */
    EXPECT(lw_site_free(site) == LW_STATUS_OK);
    EXPECT(strlen(own[0].text) > 100);
    EXPECT(lw_report_free(report) == LW_STATUS_OK);
}

/* border SITE [ROUNDS]: with `threads` or `made` in place of the rounds, the threads alone. */
int main(int count, char **arguments) {
    int made;
    if (count < 2) return 64;
    made = count > 2 && strcmp(arguments[2], "made") == 0;
    document = read_file(arguments[1], &document_len);
    EXPECT(lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, NULL) == LW_STATUS_OK);
    if (!made && (count < 3 || strcmp(arguments[2], "threads") != 0)) {
        if (count > 2) rounds = strtoul(arguments[2], NULL, 10);
        attack_ampacity();
        attack_cord();
        attack_continuous_load();
        attack_largest_device();
        attack_next_device();
        attack_equipment_grounding();
        attack_grounding_electrode();
        attack_dwelling_service();
        attack_plug();
        attack_voltage_drop();
        attack_size_circuit();
        attack_size_cord();
        attack_size_raceway();
        attack_size_box();
        numbers();
        choices();
        documents();
        by_name();
        nothing_to_free();
        batches();
    }
    threads(made);
    EXPECT(lw_code_free(code) == LW_STATUS_OK);
    free(document);
    if (failures) fprintf(stderr, "%d expectations failed\n", failures);
    return failures ? 1 : 0;
}
