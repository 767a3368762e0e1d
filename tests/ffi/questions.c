/* Every question asked once, with an answer known from elsewhere, and at its limit where it has one. The expected values
 * are read in the tables of NEC 2023 by hand (the source stands beside each) or reckoned on paper. */
#include "border.h"

static const lw_code *code;

#define ASK(function, question, answer) EXPECT(function(code, &question, &answer, NULL, NULL) == LW_STATUS_OK)

static void ampacity(void) {
    lw_ampacity_question question = lw_ampacity_question_init();
    lw_ampacity_answer answer = lw_ampacity_answer_init();
    question.material = LW_MATERIAL_COPPER;
    question.size = 8;
    question.insulation = LW_INSULATION_THHN;
    question.ambient_c = 40;
    question.terminals = LW_TERMINALS_75C;
    ASK(lw_ampacity, question, answer);
    /* Table 310.16: 55 A at 90 °C times 0.91 (Table 310.15(B)(1)(1)) is 50.05 A; 50 A at the terminals. */
    EXPECT(answer.outcome == LW_OUTCOME_HOLDS && answer.governed_by == LW_GOVERNOR_TERMINALS);
    EXPECT(answer.usable_a == 50 && answer.corrected_a == 50.05 && answer.terminal_a == 50 && isnan(answer.cable_a));
    EXPECT(answer.assumed ==
           (LW_ASSUMED_INSTALLATION | LW_ASSUMED_DRY_PLACE | LW_ASSUMED_NO_ROOF | LW_ASSUMED_THREE_CONDUCTORS));
    /* 104 °F is the same 40 °C; 105.8 °F is 41 °C, the next band: 55 A times 0.87. */
    question.ambient_c = NAN;
    question.ambient_f = 104;
    ASK(lw_ampacity, question, answer);
    EXPECT(answer.corrected_a == 50.05);
    question.ambient_f = 105.8;
    ASK(lw_ampacity, question, answer);
    EXPECT(answer.corrected_a == 47.85);
    /* No row for it: it cannot be told, and no number stands in the answer. */
    question.ambient_f = 300;
    ASK(lw_ampacity, question, answer);
    EXPECT(answer.outcome == LW_OUTCOME_CANNOT_TELL && isnan(answer.usable_a));
    /* A small conductor: 14 AWG copper behind 15 A, 240.4(D)(3). */
    question.ambient_f = NAN;
    question.size = 14;
    ASK(lw_ampacity, question, answer);
    EXPECT(answer.small_conductor_device_a == 15);
}

static void cord(void) {
    lw_cord_question question = lw_cord_question_init();
    lw_cord_answer answer = lw_cord_answer_init();
    question.cord = LW_CORD_SOOW;
    question.size = 10;
    question.current_carrying = 2;
    question.ambient_c = 30;
    ASK(lw_cord_ampacity, question, answer);
    /* Table 400.5(A)(1), column B: 10 AWG, two conductors carry current. */
    EXPECT(answer.outcome == LW_OUTCOME_HOLDS && answer.ampacity_a == 30 && answer.governed_by == LW_GOVERNOR_CORD);
    EXPECT(answer.assumed == LW_ASSUMED_CORD_UNMARKED);
}

static void voltage_drop(void) {
    lw_segment segments[2];
    lw_voltage_drop_question question = lw_voltage_drop_question_init();
    lw_voltage_drop_answer answer = lw_voltage_drop_answer_init();
    segments[0] = lw_segment_init();
    segments[0].resistance_ohm_per_kft = 1;
    segments[0].length_ft = 100;
    segments[0].current_a = 18;
    segments[1] = segments[0];
    question.method = LW_METHOD_DC;
    question.circuit = LW_CIRCUIT_TWO_WIRE;
    question.supply_v = 120;
    question.segments = segments;
    question.segment_count = 1;
    question.limit_percent = 3;
    ASK(lw_voltage_drop, question, answer);
    /* 18 A through 2 x 0.1 ohm: 3.6 V, exactly 3 % of 120 V, which doubles make more of. */
    EXPECT(answer.outcome == LW_OUTCOME_HOLDS && answer.drop_v == 3.6 && answer.drop_percent == 3);
    EXPECT(answer.at_load_v == 116.4 && answer.rises == LW_NO && answer.assumed == LW_ASSUMED_RETURN_ALIKE);
    segments[0].current_a = 18.000001;
    ASK(lw_voltage_drop, question, answer);
    EXPECT(answer.outcome == LW_OUTCOME_FAILS);
    segments[0].current_a = 18;
    question.segment_count = 2;
    ASK(lw_voltage_drop, question, answer);
    EXPECT(answer.outcome == LW_OUTCOME_FAILS && answer.drop_v == 7.2);
    /* 30.48 m are 100 ft. */
    question.segment_count = 1;
    segments[0].length_ft = NAN;
    segments[0].length_m = 30.48;
    ASK(lw_voltage_drop, question, answer);
    EXPECT(answer.outcome == LW_OUTCOME_HOLDS && answer.drop_v == 3.6);
}

static void device(void) {
    lw_largest_device_question largest = lw_largest_device_question_init();
    lw_next_device_question next = lw_next_device_question_init();
    lw_device_answer answer = lw_device_answer_init();
    largest.material = LW_MATERIAL_COPPER;
    largest.size = 6;
    largest.ampacity_a = 55;
    largest.kind = LW_DEVICE_KIND_BREAKER;
    largest.supplies = LW_SUPPLIES_OTHER;
    ASK(lw_largest_device, largest, answer);
    /* 240.4(B): the next standard rating above 55 A is 60 A; with several receptacles it is not permitted: 50 A. */
    EXPECT(answer.rating_a == 60 && answer.governed_by == LW_GOVERNOR_NEXT_SIZE_UP);
    largest.supplies = LW_SUPPLIES_SEVERAL_RECEPTACLES;
    ASK(lw_largest_device, largest, answer);
    EXPECT(answer.rating_a == 50 && answer.governed_by == LW_GOVERNOR_AMPACITY);
    next.kind = LW_DEVICE_KIND_BREAKER;
    next.continuous_a = 16;
    next.non_continuous_a = 0;
    ASK(lw_next_device, next, answer);
    /* 125 % of 16 A is exactly 20 A; of 16.000001 A it is more. */
    EXPECT(answer.rating_a == 20 && answer.assumed == LW_ASSUMED_NOT_LISTED_100_PERCENT);
    next.continuous_a = 16.000001;
    ASK(lw_next_device, next, answer);
    EXPECT(answer.rating_a == 25);
    next.continuous_a = next.non_continuous_a = NAN;
    next.required_a = 45;
    ASK(lw_next_device, next, answer);
    EXPECT(answer.rating_a == 45);
}

static void others(void) {
    lw_continuous_load_question load = lw_continuous_load_question_init();
    lw_continuous_load_answer needs = lw_continuous_load_answer_init();
    lw_equipment_grounding_question equipment = lw_equipment_grounding_question_init();
    lw_grounding_electrode_question electrode = lw_grounding_electrode_question_init();
    lw_dwelling_service_question service = lw_dwelling_service_question_init();
    lw_conductor_answer conductor = lw_conductor_answer_init();
    lw_plug_question plug = lw_plug_question_init();
    lw_plug_answer fit = lw_plug_answer_init();

    load.continuous_a = 0.1;
    load.non_continuous_a = 0.2;
    ASK(lw_continuous_load, load, needs);
    /* 0.1 A x 1.25 + 0.2 A, where doubles have 0.30000000000000004 A for the plain sum. */
    EXPECT(needs.device_a == 0.325 && needs.conductor_after_factors_a == 0.3);

    equipment.device_a = 60;
    equipment.material = LW_MATERIAL_COPPER;
    ASK(lw_equipment_grounding, equipment, conductor);
    /* Table 250.122: 60 A copper, 10 AWG. */
    EXPECT(conductor.size == 10 && conductor.assumed == LW_ASSUMED_NOT_ENLARGED);
    equipment.needed = 6;
    EXPECT(lw_equipment_grounding(code, &equipment, &conductor, NULL, NULL) == LW_STATUS_NOT_STATED);

    electrode.service_material = LW_MATERIAL_COPPER;
    electrode.service_size = LW_WIRE_SIZE_2_0_AWG;
    electrode.material = LW_MATERIAL_COPPER;
    ASK(lw_grounding_electrode, electrode, conductor);
    /* Table 250.66: 2/0 copper service, 4 AWG copper. */
    EXPECT(conductor.size == 4 && conductor.governed_by == LW_GOVERNOR_SERVICE_CONDUCTOR);

    service.rating_a = 200;
    service.material = LW_MATERIAL_ALUMINUM;
    ASK(lw_dwelling_service, service, conductor);
    /* Table 310.12(A): 200 A aluminum, 4/0 AWG. */
    EXPECT(conductor.size == LW_WIRE_SIZE_4_0_AWG);

    plug.plug = LW_CONFIGURATION_5_15;
    plug.receptacle = LW_CONFIGURATION_5_20;
    ASK(lw_plug_fit, plug, fit);
    /* ANSI/NEMA WD 6: a 5-15 plug enters the T slot of a 5-20 receptacle, not the other way round. */
    EXPECT(fit.outcome == LW_OUTCOME_HOLDS && fit.governing_a == 15 && fit.governed_by == LW_GOVERNOR_PLUG);
    plug.plug = LW_CONFIGURATION_5_20;
    plug.receptacle = LW_CONFIGURATION_5_15;
    ASK(lw_plug_fit, plug, fit);
    EXPECT(fit.outcome == LW_OUTCOME_FAILS && isnan(fit.governing_a));
    plug.plug = LW_CONFIGURATION_SS2_50;
    plug.receptacle = LW_CONFIGURATION_CS_50_125_250;
    ASK(lw_plug_fit, plug, fit);
    EXPECT(fit.outcome == LW_OUTCOME_CANNOT_TELL);
}

static void sizes(void) {
    lw_ampacity_question conductor = lw_ampacity_question_init();
    lw_size_circuit_question circuit = lw_size_circuit_question_init();
    lw_size_circuit_answer sized = lw_size_circuit_answer_init();
    lw_size_cord_question cord = lw_size_cord_question_init();
    lw_size_cord_answer set = lw_size_cord_answer_init();
    lw_occupant occupant = lw_occupant_init();
    lw_size_raceway_question raceway = lw_size_raceway_question_init();
    lw_size_raceway_answer tube = lw_size_raceway_answer_init();
    lw_counted counted = lw_counted_init();
    lw_size_box_question box = lw_size_box_question_init();
    lw_size_box_answer volume = lw_size_box_answer_init();

    conductor.material = LW_MATERIAL_COPPER;
    conductor.insulation = LW_INSULATION_THWN_2;
    conductor.terminals = LW_TERMINALS_75C;
    circuit.conductor = &conductor;
    circuit.conductors = LW_CONDUCTORS_TWO_LINES;
    circuit.continuous_a = 32;
    circuit.non_continuous_a = 0;
    circuit.supplies = LW_SUPPLIES_OTHER;
    ASK(lw_size_circuit, circuit, sized);
    /* 125 % of 32 A is 40 A; 8 AWG carries 50 A at 75 °C, 10 AWG 35 A; 40 A asks for 10 AWG to ground, Table 250.122. */
    EXPECT(sized.device_a == 40 && sized.ungrounded == 8 && sized.grounding == 10 && sized.neutral == 0);
    EXPECT(sized.sets == 1 && isnan(sized.drop_v));
    circuit.voltage_v = 240;
    circuit.length_ft = 20000;
    circuit.drop_limit_percent = 0.1;
    ASK(lw_size_circuit, circuit, sized);
    EXPECT(sized.outcome == LW_OUTCOME_FAILS && sized.governed_by == LW_GOVERNOR_VOLTAGE_DROP && isnan(sized.device_a));

    cord.outlet = LW_CONFIGURATION_L14_30;
    cord.device_a = 30;
    cord.current_a = 24;
    cord.voltage_v = 240;
    cord.usage = LW_USAGE_HARD;
    cord.place = LW_PLACE_WET;
    ASK(lw_size_cord, cord, set);
    /* Table 400.5(A)(1), column B, two lines and a neutral that does not count: 10 AWG bears 30 A. */
    EXPECT(set.outcome == LW_OUTCOME_HOLDS && set.size == 10 && set.conductors == 4 && set.ampacity_a == 30);

    occupant.count = 3;
    occupant.size = 6;
    occupant.insulation = LW_INSULATION_THWN_2;
    raceway.kind = LW_RACEWAY_EMT;
    raceway.occupants = &occupant;
    raceway.occupant_count = 1;
    ASK(lw_size_raceway, raceway, tube);
    /* Chapter 9: 3 x 0.0507 in2 (Table 5) is 0.1521 in2; 40 % of 3/4 EMT is 0.213 in2, of 1/2 EMT 0.122 in2 (Table 4). */
    EXPECT(tube.trade_size == LW_TRADE_SIZE_3_4_IN && tube.fill_limit_percent == 40);

    counted.count = 4;
    counted.size = 12;
    box.conductors = &counted;
    box.conductor_count = 1;
    box.has_devices = box.has_grounding = box.has_fittings = LW_NO;
    box.has_clamps = LW_YES;
    ASK(lw_size_box, box, volume);
    /* Table 314.16(B)(1): 2.25 in3 each for four conductors, and once for the clamps. */
    EXPECT(volume.volume_in3 == 11.25);
    box.has_clamps = 0;
    EXPECT(lw_size_box(code, &box, &volume, NULL, NULL) == LW_STATUS_NOT_STATED);
    EXPECT(volume.outcome == LW_OUTCOME_CANNOT_TELL && isnan(volume.volume_in3));
}

static void batch(void) {
    enum { ROWS = 4 };
    static const double load[ROWS] = {16, 16.000001, 16, NAN}, other[ROWS] = {0, 0, 0, 0}, device[ROWS] = {20, 20, 20, 20};
    static const uint8_t first[ROWS] = {0, 0, 0, 0};
    static const uint8_t valid = 0xB; /* the third row has no device */
    lw_str copper, size, insulation, words;
    lw_column columns[6];
    lw_batch_answers answers = lw_batch_answers_init();
    uint8_t outcome[ROWS], decided_by[ROWS], governor[ROWS];
    uint16_t reason[ROWS];
    double largest[ROWS];
    static const char *const names[] = {"material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a"};
    const lw_str *dictionaries[3];
    const void *data[6];
    int column;
    copper.data = "copper", copper.len = 6;
    size.data = "12 AWG", size.len = 6;
    insulation.data = "THWN-2", insulation.len = 6;
    dictionaries[0] = &copper, dictionaries[1] = &size, dictionaries[2] = &insulation;
    data[0] = data[1] = data[2] = first, data[3] = load, data[4] = other, data[5] = device;
    for (column = 0; column < 6; ++column) {
        columns[column] = lw_column_init();
        columns[column].name = names[column];
        columns[column].name_len = strlen(names[column]);
        columns[column].layout = column < 3 ? LW_LAYOUT_U8 : LW_LAYOUT_F64;
        columns[column].data = data[column];
        columns[column].rows = ROWS;
        if (column < 3) columns[column].words = dictionaries[column], columns[column].word_count = 1;
    }
    columns[5].validity = &valid;
    answers.rows = ROWS;
    answers.outcome = outcome;
    answers.decided_by = decided_by;
    answers.reason = reason;
    answers.largest_device_governed_by = governor;
    answers.largest_device_a = largest;
    EXPECT(lw_batch_judge(code, columns, 6, &answers, NULL, NULL) == LW_STATUS_OK);
    /* 125 % of 16 A is exactly 20 A, and so is the ampacity of 12 AWG at 60 °C (Table 310.16), which unmarked terminals
     * of a circuit up to 100 A count as (110.14(C)(1)). */
    EXPECT(outcome[0] == LW_OUTCOME_HOLDS && reason[0] == 0);
    EXPECT(outcome[1] == LW_OUTCOME_FAILS && decided_by[1] == LW_CHECK_CONTINUOUS_LOAD_ON_CONDUCTOR);
    EXPECT(outcome[2] == LW_OUTCOME_CANNOT_TELL && reason[2] != 0);
    EXPECT(outcome[3] == LW_OUTCOME_CANNOT_TELL && reason[3] != 0 && reason[3] != reason[2]);
    EXPECT(governor[0] == LW_GOVERNOR_AMPACITY && largest[0] == 20);
    EXPECT(lw_reason_text(reason[2], &words, NULL) == LW_STATUS_OK && words.len > 0);
}

int main(void) {
    lw_code *own;
    EXPECT(lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &own, NULL) == LW_STATUS_OK);
    code = own;
    ampacity();
    cord();
    voltage_drop();
    device();
    others();
    sizes();
    batch();
    lw_code_free(own);
    if (failures) fprintf(stderr, "%d expectations failed\n", failures);
    return failures ? 1 : 0;
}
