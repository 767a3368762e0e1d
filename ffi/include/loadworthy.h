/*
 * Loadworthy: whether every part of an electrical path is fit to carry what it is asked to carry.
 *
 * This work can kill. Electricity and engine exhaust kill. Local codes and the authority having jurisdiction decide;
 * connection to premises wiring is work for licensed people; a report covers only what its description states.
 *
 * Generated from the sources in ffi/src; change those. C99, C11 and later, C++11 and later.
 *
 * Three outcomes. A check holds, fails, or cannot be told because a fact is missing. "Cannot tell" is never "holds", and
 * zeroed memory is no outcome at all. Test for LW_OUTCOME_HOLDS, not for the absence of a failure.
 *
 * Status. Every function returns an lw_status, LW_STATUS_OK (0) when the outputs hold what was asked for. A function that
 * fails says why in an lw_error, if `error_out` is not NULL: release it with lw_error_free. There is no global error, and
 * nothing depends on the thread. Every output is written on every path: with the result, or with NULL, zero or NAN.
 *
 * Ownership. lw_code, lw_site, lw_report, lw_plan, lw_sequence, lw_batch, lw_working, lw_answer and lw_error are opaque
 * objects with one owner each. A function that gives one writes it to a pointer; its `_free` releases it, once.
 * `_free(NULL)` does nothing. Using an object after its `_free`, or freeing it twice, is undefined, as with free().
 * Objects keep alive what they need: a report outlives its site and its code.
 *
 * Texts. Going in, a text is a pointer and a length in bytes, UTF-8, without a NUL; NULL and 0 say "none". The library
 * keeps no pointer to it after the call. Where an array of texts is asked for, `lw_text` below makes one of a literal.
 * Coming out, a text is an lw_str: UTF-8, with its length, and with a NUL behind it that the length does not count, and
 * no other; it belongs to the object that it was asked of and lives as long.
 *
 * Structs. Each begins with `struct_size`. Make one with its `_init` function below, which sets that to sizeof and states
 * nothing: numbers are NAN, choices and counts are 0. A later version only appends fields: a program that was compiled
 * with an older header has the shorter struct and goes on working; a field that the library does not know must be zero.
 * Where C writes no `_init` for you (another language), set `struct_size`, zero the rest and put NAN in every double.
 *
 * Numbers. The name of a field states its unit: `_a` amperes, `_v` volts, `_ft` feet, `_m` meters, `_in` inches, `_in3`
 * cubic inches, `_c` and `_f` degrees Celsius and Fahrenheit, `_h` hours, `_percent`. A double is read as the shortest
 * decimal that prints as it, so that 0.1 is 0.1 exactly; what cannot be kept exactly is refused with a message, never
 * rounded. No verdict is reached in doubles. What comes out is the double nearest to the exact value, or to the value
 * rounded to the cautious side where the field says so.
 *
 * Threads. Objects are immutable. Any number of threads may pass one object to any functions at once; only its `_free`
 * must come after all of them. Two threads must not share one output. No function calls back into the program, takes a
 * signal handler or changes the locale, unless its comment says so.
 *
 * Defects. No panic, abort or longjmp crosses the border: a defect of the library comes back as LW_STATUS_PANIC and leaves
 * every object usable. What cannot be detected stays the caller's: a pointer that is neither NULL nor valid, a length
 * longer than its memory, memory that changes during the call.
 */

#ifndef LOADWORTHY_H
#define LOADWORTHY_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/*
 The most columns of one batch.
 */
#define LW_MOST_COLUMNS 100

/*
 The most sorts of conductors or devices in one box.
 */
#define LW_MOST_COUNTED 1000

/*
 The most sorts of conductors in one raceway.
 */
#define LW_MOST_OCCUPANTS 1000

/*
 The most stretches of one path.
 */
#define LW_MOST_SEGMENTS 1000

/*
 The version of the header. Compare it with `lw_version`, which says it of the library.
 */
#define LW_VERSION_MAJOR 0

/*
 See `LW_VERSION_MAJOR`.
 */
#define LW_VERSION_MINOR 1

/*
 See `LW_VERSION_MAJOR`.
 */
#define LW_VERSION_PATCH 0

/*
 `struct ArrowArray` of the Arrow C data interface, which the program defines.
 */
typedef struct ArrowArray ArrowArray;

/*
 `struct ArrowSchema` of the Arrow C data interface, which the program defines.
 */
typedef struct ArrowSchema ArrowSchema;

/*
 The answer to a question that was asked by name. It is only read: several threads may do so at once.
 */
typedef struct lw_answer lw_answer;

/*
 An edition of a code, ready to answer. It is only read: any number of threads may use one at once.
 */
typedef struct lw_code lw_code;

/*
 What went wrong in one call. It is only read, so that several threads may do so at once.
 */
typedef struct lw_error lw_error;

/*
 The plan of a site. It is only read: any number of threads may use one at once.
 */
typedef struct lw_plan lw_plan;

/*
 What the rules found on a site. It is only read: any number of threads may use one at once. What is asked of it first
 is made then, once.
 */
typedef struct lw_report lw_report;

/*
 The orders of switching of a site, or the judgement of somebody's own. It is only read: any number of threads may use
 one at once.
 */
typedef struct lw_sequence lw_sequence;

/*
 A site: what there is and what feeds what. It is only read: any number of threads may use one at once.
 */
typedef struct lw_site lw_site;

/*
 The working of one answer: its steps, and where it cannot be told, why. It is only read: several threads may do so at
 once.
 */
typedef struct lw_working lw_working;

/*
 How a call ended: one of the `LW_STATUS_` constants. A number keeps its meaning for ever; new ones may be added.
 */
typedef int32_t lw_status;

/*
 Is called after some ten thousand rows with `user` and the count of rows done; returns 0 to go on, anything else to
 stop. It runs on the thread that called `lw_batch_judge`, must return normally (no longjmp, no exception), and may call
 any function of the library.
 */
typedef int32_t (*lw_progress)(void *user, size_t done);

/*
 How a batch is judged. Make one with `lw_batch_options_init`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_batch_options)`.
     */
    size_t struct_size;
    /*
     Over how many threads, 1 to 1024; 0 for 1: the calling thread alone.
     */
    int32_t threads;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     Is told of the progress; NULL for nobody.
     */
    lw_progress progress;
    /*
     What it is called with.
     */
    void *user;
} lw_batch_options;

/*
 A text that the library owns: UTF-8, `len` bytes, and a NUL behind them that `len` does not count. It lives as long as
 the object that it was asked of. Where there is none, `data` is NULL and `len` is 0.
 */
typedef struct {
    /*
     The first byte, or NULL.
     */
    const char *data;
    /*
     How many bytes, the NUL not counted.
     */
    size_t len;
} lw_str;

/*
 How a check ends: one of the `LW_OUTCOME_` constants. 0 is none: what was never answered holds nothing.
 */
typedef int32_t lw_outcome;

/*
 What answers a question, without its working: an output. Its texts live as long as the answer; one that has nothing to
 say has NULL as its `data`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_brief)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where the answer is no.
     */
    lw_outcome outcome;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     A number with its unit, or a size: `45 A`, `6 AWG`; none where that is not what answers.
     */
    lw_str figure;
    /*
     The number alone: an exact decimal, or what names a size.
     */
    lw_str value;
    /*
     Its unit.
     */
    lw_str unit;
    /*
     The word for what limits the answer, such as `terminals`.
     */
    lw_str governed_by;
} lw_brief;

/*
 How the values of a column lie in memory: one of the `LW_LAYOUT_` constants.
 */
typedef int32_t lw_layout;

/*
 A column of circuits, a row each; only read during the call, and never copied. Make one with `lw_column_init`.

 Its name says what it holds and in which unit. Required: `material`, `size` (a text such as `12 AWG`),
 `load_continuous_a`, `load_other_a`, `device_a` (or `_ma`), and `insulation` or `cable`. May be left out, and is then
 assumed: `installation`, `place`, `terminals`, `ambient_c` or `ambient_f`, `current_carrying`, `device_kind`,
 `continuous_rating`. Decides only in some rows: `thermal_insulation` (yes, no), `supplies` (`several-receptacles`,
 `other`). For the voltage drop all of `voltage_v`, `circuit` (`two-wire`, `three-phase`), `length_ft` or `length_m`;
 with `drop_limit_percent` it is judged.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_column)`, the same in all of an array.
     */
    size_t struct_size;
    /*
     Its name, UTF-8.
     */
    const char *name;
    /*
     The length of the name in bytes.
     */
    size_t name_len;
    /*
     How its values lie in memory.
     */
    lw_layout layout;
    /*
     How many digits are decimals, -100 to 100, for `LW_LAYOUT_DECIMAL128`.
     */
    int32_t scale;
    /*
     The values.
     */
    const void *data;
    /*
     How many rows it has; all columns have the same.
     */
    size_t rows;
    /*
     Which values are there, a bit a row, the least significant of a byte first; NULL where all are.
     */
    const uint8_t *validity;
    /*
     The bit of the first row in `validity`.
     */
    size_t validity_offset;
    /*
     The bit of the first row in `data`, for `LW_LAYOUT_FLAGS`.
     */
    size_t data_offset;
    /*
     Where each text begins, for `LW_LAYOUT_JOINED_32` and `LW_LAYOUT_JOINED_64`.
     */
    const void *offsets;
    /*
     How many bytes of text there are, for the same two.
     */
    size_t byte_count;
    /*
     A dictionary: then the values are whole numbers, and count its words from 0. NULL where they are no codes.
     */
    const lw_str *words;
    /*
     How many words it has.
     */
    size_t word_count;
} lw_column;

/*
 A check of a row: what `decided_by` says; 0 where none decided.
 */
typedef uint8_t lw_check;

/*
 Where the answers go: arrays of the caller, `rows` entries each; NULL where one is not wanted. They must not overlap
 each other or a column. Every entry of every array is written once the arguments are in order, also where the judging is
 stopped: zero is no outcome.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_batch_answers)`.
     */
    size_t struct_size;
    /*
     How many entries each array has: as many as the columns have rows.
     */
    size_t rows;
    /*
     The outcome of the row, an `LW_OUTCOME_` constant.
     */
    uint8_t *outcome;
    /*
     Why a row could not be judged, for `lw_reason_text`; 0 where it was.
     */
    uint16_t *reason;
    /*
     The outcome of the check `LW_CHECK_CONDUCTOR_AMPACITY`.
     */
    uint8_t *conductor_ampacity;
    /*
     The outcome of the check `LW_CHECK_CONTINUOUS_LOAD_ON_CONDUCTOR`.
     */
    uint8_t *continuous_load_on_conductor;
    /*
     The outcome of the check `LW_CHECK_CONTINUOUS_LOAD_ON_DEVICE`.
     */
    uint8_t *continuous_load_on_device;
    /*
     The outcome of the check `LW_CHECK_BREAKER_PROTECTS_CONDUCTOR`.
     */
    uint8_t *breaker_protects_conductor;
    /*
     The outcome of the check `LW_CHECK_VOLTAGE_DROP`; 0 where it was not asked for.
     */
    uint8_t *voltage_drop;
    /*
     The check that decided the row, an `LW_CHECK_` constant; 0 where none did.
     */
    lw_check *decided_by;
    /*
     What limits the ampacity, an `LW_GOVERNOR_` constant; 0 where it cannot be told.
     */
    uint8_t *ampacity_governed_by;
    /*
     What limits the largest device, an `LW_GOVERNOR_` constant; 0 where it cannot be told.
     */
    uint8_t *largest_device_governed_by;
    /*
     The usable ampacity in amperes; NAN where it cannot be told.
     */
    double *ampacity_a;
    /*
     The least device for the load in amperes; NAN where it cannot be told.
     */
    double *least_device_a;
    /*
     The largest device for the conductor in amperes; NAN where it cannot be told.
     */
    double *largest_device_a;
    /*
     The voltage drop in volts, rounded up to the millivolt; NAN where there is none.
     */
    double *drop_v;
    /*
     Its share in percent, rounded up; NAN where there is none.
     */
    double *drop_percent;
} lw_batch_answers;

/*
 An edition of the National Electrical Code: one of the `LW_EDITION_` constants. 0 is not stated.
 */
typedef int32_t lw_edition;

/*
 One thing wrong with a document: an output of `lw_error_problem`. Its texts live as long as the error.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_problem)`.
     */
    size_t struct_size;
    /*
     A name for programs, such as `missing-unit`, that is never reused.
     */
    lw_str code;
    /*
     The document, as the caller named it.
     */
    lw_str file;
    /*
     The path of the field, such as `cord[0].size`.
     */
    lw_str path;
    /*
     The line, from 1; 0 in a description that was changed after it was read.
     */
    uint32_t line;
    /*
     The column in characters, from 1; 0 in a description that was changed after it was read.
     */
    uint32_t column;
    /*
     The whole message: place, what is wrong, what to do.
     */
    lw_str message;
} lw_problem;

/*
 What limits an answer: one of the `LW_GOVERNOR_` constants; 0 where nothing was found. `lw_governor_word` says it.
 */
typedef int32_t lw_governor;

/*
 What is asked of a plan. Make one with `lw_plan_options_init`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_plan_options)`.
     */
    size_t struct_size;
    /*
     The name of the source, UTF-8, where the site has several; else NULL.
     */
    const char *source;
    /*
     Its length in bytes.
     */
    size_t source_len;
    /*
     An order of starts to be judged, UTF-8: names of loads with commas between them; else NULL.
     */
    const char *start_order;
    /*
     Its length in bytes.
     */
    size_t start_order_len;
    /*
     How long it is wanted to last, in hours; NAN where nothing is wished.
     */
    double wished_h;
    /*
     The hour of the day at which the source takes over, 0 to 23.
     */
    int32_t start_hour;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     A record of the home's meter that gives the base load, CSV or a utility's ESPI export in XML, UTF-8, at most 64 MiB;
     else NULL.
     */
    const char *record;
    /*
     Its length in bytes.
     */
    size_t record_len;
    /*
     What notes and errors call the record, UTF-8; NULL for `record`.
     */
    const char *record_name;
    /*
     Its length in bytes.
     */
    size_t record_name_len;
    /*
     The share of the recorded time that the base load covers, in percent, at most 100; stated where there is a record.
     */
    double record_share_percent;
    /*
     The described loads that the record holds already, UTF-8: their names with commas between them; else NULL.
     */
    const char *record_for;
    /*
     Its length in bytes.
     */
    size_t record_for_len;
} lw_plan_options;

/*
 Yes or no: 0 is not stated.
 */
typedef int32_t lw_yes_no;

/*
 A leg of a split phase: one of the `LW_LEG_` constants; 0 where there is none.
 */
typedef int32_t lw_leg;

/*
 A load in a plan: an output. Its texts live as long as the plan.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_planned_load)`.
     */
    size_t struct_size;
    /*
     Its name.
     */
    lw_str name;
    /*
     Whether it can stay on with the others.
     */
    lw_yes_no on;
    /*
     Its leg, where it is on.
     */
    lw_leg leg;
    /*
     What it draws in each line, in amperes, rounded up to the microampere; NAN where it is off.
     */
    double current_a;
    /*
     Why it is kept off; NULL as its `data` where it is on.
     */
    lw_str why;
} lw_planned_load;

/*
 What a conductor is made of: one of the `LW_MATERIAL_` constants, 0 where it is not stated.
 */
typedef int32_t lw_material;

/*
 A wire size: 27 to 1 for 27 AWG to 1 AWG, -1 to -4 for 1/0 to 4/0 AWG, 250 to 2000 for that many kcmil. 0 is not
 stated.
 */
typedef int32_t lw_wire_size;

/*
 The insulation of a conductor: one of the `LW_INSULATION_` constants, 0 where it is not stated.
 */
typedef int32_t lw_insulation;

/*
 The cable that a conductor lies in: one of the `LW_CABLE_` constants, 0 where it is not stated.
 */
typedef int32_t lw_cable;

/*
 How a conductor is installed: one of the `LW_INSTALLATION_` constants, 0 where it is not stated.
 */
typedef int32_t lw_installation;

/*
 The kind of place: one of the `LW_PLACE_` constants, 0 where it is not stated.
 */
typedef int32_t lw_place;

/*
 The temperature mark of terminals: one of the `LW_TERMINALS_` constants, 0 where it is not stated.
 */
typedef int32_t lw_terminals;

/*
 A conductor and its conditions. Make one with `lw_ampacity_question_init`, which states nothing: 0 and NAN say so.
 Material, size, and insulation or cable must be stated; the rest is taken as the base of the table has it, and the
 answer says what was.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_ampacity_question)`.
     */
    size_t struct_size;
    /*
     What the conductor is made of.
     */
    lw_material material;
    /*
     Its size.
     */
    lw_wire_size size;
    /*
     Its insulation; of a conductor in a cable it may be left out.
     */
    lw_insulation insulation;
    /*
     The cable that it lies in, where it does.
     */
    lw_cable cable;
    /*
     How it is installed.
     */
    lw_installation installation;
    /*
     The kind of place.
     */
    lw_place place;
    /*
     The ambient temperature in °C, or NAN.
     */
    double ambient_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double ambient_f;
    /*
     The clearance above a roof in sunlight, in inches; NAN where there is none.
     */
    double rooftop_clearance_in;
    /*
     How many conductors carry current, 1 to 999.
     */
    int32_t current_carrying;
    /*
     Whether the cable lies in thermal insulation; asked for only where the answer depends on it.
     */
    lw_yes_no thermal_insulation;
    /*
     The lower temperature mark of its terminals.
     */
    lw_terminals terminals;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     The rating of the circuit in amperes, which decides how unmarked terminals count; NAN where it is not known.
     */
    double circuit_rating_a;
} lw_ampacity_question;

/*
 What was not stated and was taken as the base of the table has it, or on the cautious side: the sum of
 `LW_ASSUMED_` constants.
 */
typedef uint32_t lw_assumed;

/*
 The ampacity of a conductor: an output. Currents are the doubles nearest to the exact values; NAN where there is none.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_ampacity_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     Zero.
     */
    uint32_t reserved;
    /*
     The current that it may carry, in amperes.
     */
    double usable_a;
    /*
     The conductor's own ampacity, corrected and adjusted, in amperes.
     */
    double corrected_a;
    /*
     The limit of the terminals, in amperes.
     */
    double terminal_a;
    /*
     The limit of the cable, in amperes, where it has one.
     */
    double cable_a;
    /*
     The largest overcurrent device of a small conductor, in amperes, where it is one.
     */
    double small_conductor_device_a;
} lw_ampacity_answer;

/*
 So many of a size. Make one with `lw_counted_init`. Both must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_counted)`, the same in all of an array.
     */
    size_t struct_size;
    /*
     How many, 1 to 999.
     */
    int32_t count;
    /*
     Of which size.
     */
    lw_wire_size size;
} lw_counted;

/*
 What a box holds. Make one with `lw_size_box_question_init`. What is not in the box is said too: a box that is too
 small by what was forgotten overheats what it holds.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_box_question)`.
     */
    size_t struct_size;
    /*
     Conductors that end, are spliced or pass unbroken inside, one entry a size; only read during the call.
     */
    const lw_counted *conductors;
    /*
     How many entries, 1 to `LW_MOST_COUNTED`.
     */
    size_t conductor_count;
    /*
     Devices, each with the size of the largest conductor on it; one wider than a single device counts once a gang.
     */
    const lw_counted *devices;
    /*
     How many entries; 0 where `has_devices` is `LW_NO`.
     */
    size_t device_count;
    /*
     Whether there are devices.
     */
    lw_yes_no has_devices;
    /*
     Whether there are equipment grounding conductors.
     */
    lw_yes_no has_grounding;
    /*
     How many of them.
     */
    int32_t grounding_count;
    /*
     The size of the largest.
     */
    lw_wire_size grounding_size;
    /*
     Whether there are cable clamps inside.
     */
    lw_yes_no has_clamps;
    /*
     Whether there are fittings inside, studs or hickeys.
     */
    lw_yes_no has_fittings;
    /*
     How many kinds of them, 1 or 2.
     */
    int32_t fitting_kinds;
    /*
     Zero.
     */
    int32_t reserved;
} lw_size_box_question;

/*
 The least volume of a box: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_box_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     The least volume in cubic inches, rounded up to a thousandth; NAN where it cannot be told.
     */
    double volume_in3;
} lw_size_box_answer;

/*
 What a circuit is: one of the `LW_ROLE_` constants. 0 is not stated.
 */
typedef int32_t lw_role;

/*
 The conductors of a circuit: one of the `LW_CONDUCTORS_` constants. 0 is not stated.
 */
typedef int32_t lw_conductors;

/*
 How much of its rating a device carries for hours: one of the `LW_CONTINUOUS_RATING_` constants, 0 where it is not stated.
 */
typedef int32_t lw_continuous_rating;

/*
 The kind of overcurrent device: one of the `LW_DEVICE_KIND_` constants, 0 where it is not stated.
 */
typedef int32_t lw_device_kind;

/*
 What a circuit supplies, as far as the choice of its device depends on it: one of the `LW_SUPPLIES_` constants. 0 is
 not stated.
 */
typedef int32_t lw_supplies;

/*
 A circuit to size. Make one with `lw_size_circuit_question_init`. Load, conductors and `conductor` must be stated, and
 of a branch circuit what it supplies; with a limit on the drop, voltage and length too.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_circuit_question)`.
     */
    size_t struct_size;
    /*
     The conductor and its conditions; only read during the call. Its size is the least to consider, and may be left
     out for the least there is; its `circuit_rating_a` is found here and stays NAN.
     */
    const lw_ampacity_question *conductor;
    /*
     What it is; a branch circuit where it is not stated.
     */
    lw_role role;
    /*
     Its conductors.
     */
    lw_conductors conductors;
    /*
     The part of the load that lasts three hours or more, in amperes.
     */
    double continuous_a;
    /*
     The rest, in amperes; 0 where there is none.
     */
    double non_continuous_a;
    /*
     The most that the neutral of a feeder carries, taken as continuous, in amperes; NAN for as much as the lines.
     */
    double neutral_a;
    /*
     The voltage in volts, between lines where there are two.
     */
    double voltage_v;
    /*
     The length of the run, one way, in feet, or NAN.
     */
    double length_ft;
    /*
     The same in meters, in place of it, or NAN.
     */
    double length_m;
    /*
     The limit on the voltage drop in percent; NAN for none.
     */
    double drop_limit_percent;
    /*
     The least rating of the device to consider, in amperes; NAN for 15 A.
     */
    double least_device_a;
    /*
     How much of its rating the device carries for hours.
     */
    lw_continuous_rating continuous_rating;
    /*
     The kind of device; a breaker where it is not stated.
     */
    lw_device_kind kind;
    /*
     What it supplies.
     */
    lw_supplies supplies;
    /*
     The material of the equipment grounding conductor; that of the others where it is not stated.
     */
    lw_material grounding_material;
    /*
     `LW_NO` where there is no equipment grounding conductor, since a raceway or a sheath serves.
     */
    lw_yes_no grounding;
    /*
     The most sets of conductors in parallel, 1 to 9; 0 for 1.
     */
    int32_t most_sets;
} lw_size_circuit_question;

/*
 The sizes of a circuit: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_circuit_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where no size passes: then the working says what stands
     in the way.
     */
    lw_outcome outcome;
    /*
     What limits the ungrounded conductors, or what stands in the way.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     How many sets in parallel.
     */
    int32_t sets;
    /*
     The rating of the overcurrent device, in amperes.
     */
    double device_a;
    /*
     The size of the ungrounded conductors.
     */
    lw_wire_size ungrounded;
    /*
     The size that the ampacity alone needs.
     */
    lw_wire_size needed;
    /*
     The size of the neutral; 0 where there is none.
     */
    lw_wire_size neutral;
    /*
     What limits it.
     */
    lw_governor neutral_governed_by;
    /*
     The size of the equipment grounding conductor; 0 where there is none.
     */
    lw_wire_size grounding;
    /*
     What limits it.
     */
    lw_governor grounding_governed_by;
    /*
     The ampacity of one ungrounded conductor, in amperes.
     */
    double ampacity_of_one_a;
    /*
     The voltage drop in volts, rounded up to the millivolt; NAN where no limit was stated.
     */
    double drop_v;
    /*
     Its share of the voltage in percent, rounded up to the ten-thousandth; NAN likewise.
     */
    double drop_percent;
} lw_size_circuit_answer;

/*
 A load in its two parts. Make one with `lw_continuous_load_question_init`. Both currents must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_continuous_load_question)`.
     */
    size_t struct_size;
    /*
     The part that lasts three hours or more, in amperes.
     */
    double continuous_a;
    /*
     The rest, in amperes; 0 where there is none.
     */
    double non_continuous_a;
    /*
     How much of its rating the device carries for hours.
     */
    lw_continuous_rating continuous_rating;
    /*
     Zero.
     */
    int32_t reserved;
} lw_continuous_load_question;

/*
 What a load asks for: an output. In amperes; NAN where it cannot be told.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_continuous_load_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     Zero.
     */
    uint32_t reserved;
    /*
     The least rating of the device, in amperes, rounded up to the microampere.
     */
    double device_a;
    /*
     The least ampacity before correction and adjustment, in amperes, rounded up to the microampere.
     */
    double conductor_before_factors_a;
    /*
     The least ampacity after them, in amperes.
     */
    double conductor_after_factors_a;
} lw_continuous_load_answer;

/*
 The letter type of a flexible cord: one of the `LW_CORD_` constants, 0 where it is not stated.
 */
typedef int32_t lw_cord;

/*
 A flexible cord and its conditions. Make one with `lw_cord_question_init`. Type and size must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_cord_question)`.
     */
    size_t struct_size;
    /*
     The letter type.
     */
    lw_cord cord;
    /*
     The size of its conductors.
     */
    lw_wire_size size;
    /*
     How many conductors carry current, 1 to 999.
     */
    int32_t current_carrying;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     The ambient temperature in °C, or NAN.
     */
    double ambient_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double ambient_f;
    /*
     The temperature marked on the cord in °C, or NAN.
     */
    double marked_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double marked_f;
} lw_cord_question;

/*
 The ampacity of a cord: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_cord_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     Zero.
     */
    uint32_t reserved;
    /*
     The current that it may carry, in amperes; NAN where it cannot be told.
     */
    double ampacity_a;
} lw_cord_answer;

/*
 The configuration of a plug and a receptacle (ANSI/NEMA WD 6, IEC 60309-2): one of the `LW_CONFIGURATION_`
 constants, 0 where it is not stated.
 */
typedef int32_t lw_configuration;

/*
 How hard a cord is used: one of the `LW_USAGE_` constants, 0 where it is not stated.
 */
typedef int32_t lw_usage;

/*
 A cord set to find: a plug at the outlet's end, a connector at the other. Make one with `lw_size_cord_question_init`.
 Outlet, device, current, voltage, usage and place must be stated; with a limit on the drop, the length too. A cord with
 blades at both ends is never sized: it cannot be asked for.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_cord_question)`.
     */
    size_t struct_size;
    /*
     The configuration of the outlet.
     */
    lw_configuration outlet;
    /*
     That of the connector, where it differs.
     */
    lw_configuration connector;
    /*
     The rating of the device that protects the outlet, in amperes.
     */
    double device_a;
    /*
     The load on each line, in amperes.
     */
    double current_a;
    /*
     The voltage in volts.
     */
    double voltage_v;
    /*
     The length in feet, or NAN.
     */
    double length_ft;
    /*
     The same in meters, in place of it, or NAN.
     */
    double length_m;
    /*
     The limit on the voltage drop in percent; NAN for none.
     */
    double drop_limit_percent;
    /*
     The ambient temperature in °C, or NAN.
     */
    double ambient_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double ambient_f;
    /*
     The temperature marked on the cord in °C, or NAN.
     */
    double marked_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double marked_f;
    /*
     How hard it is used.
     */
    lw_usage usage;
    /*
     The kind of place.
     */
    lw_place place;
    /*
     The type, where one is wanted.
     */
    lw_cord cord;
    /*
     Zero.
     */
    int32_t reserved;
} lw_size_cord_question;

/*
 A cord set: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_cord_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where no cord passes.
     */
    lw_outcome outcome;
    /*
     What limits the size, or what stands in the way.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     The letter type.
     */
    lw_cord cord;
    /*
     The size of its conductors.
     */
    lw_wire_size size;
    /*
     How many conductors it has, the grounding conductor with them.
     */
    int32_t conductors;
    /*
     Its ampacity in amperes.
     */
    double ampacity_a;
    /*
     The longest that keeps the limit on the drop, in feet, rounded down to a tenth; NAN where there is no limit.
     */
    double longest_ft;
} lw_size_cord_answer;

/*
 A conductor to protect. Make one with `lw_largest_device_question_init`. Everything must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_largest_device_question)`.
     */
    size_t struct_size;
    /*
     What the conductor is made of.
     */
    lw_material material;
    /*
     Its size.
     */
    lw_wire_size size;
    /*
     Its ampacity in its conditions, in amperes: `lw_ampacity` gives it.
     */
    double ampacity_a;
    /*
     The kind of device.
     */
    lw_device_kind kind;
    /*
     What the circuit supplies.
     */
    lw_supplies supplies;
} lw_largest_device_question;

/*
 An overcurrent device: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_device_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     Zero.
     */
    uint32_t reserved;
    /*
     The rating in amperes; NAN where it cannot be told.
     */
    double rating_a;
} lw_device_answer;

/*
 A load to supply. Make one with `lw_next_device_question_init`. The kind must be stated, and either what is required or
 both parts of the load.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_next_device_question)`.
     */
    size_t struct_size;
    /*
     The least rating that the load requires, in amperes, or NAN.
     */
    double required_a;
    /*
     The part of the load that lasts three hours or more, in amperes, or NAN.
     */
    double continuous_a;
    /*
     The rest, in amperes, or NAN.
     */
    double non_continuous_a;
    /*
     How much of its rating the device carries for hours.
     */
    lw_continuous_rating continuous_rating;
    /*
     The kind of device.
     */
    lw_device_kind kind;
} lw_next_device_question;

/*
 Behind which device a grounding conductor serves. Make one with `lw_equipment_grounding_question_init`. Device and
 material must be stated; the two sizes both, or neither.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_equipment_grounding_question)`.
     */
    size_t struct_size;
    /*
     The rating of the overcurrent device ahead, in amperes.
     */
    double device_a;
    /*
     The material of the grounding conductor.
     */
    lw_material material;
    /*
     The smallest circuit conductor with sufficient ampacity, where a larger one is installed.
     */
    lw_wire_size needed;
    /*
     The circuit conductor that is installed.
     */
    lw_wire_size installed;
    /*
     Zero.
     */
    int32_t reserved;
} lw_equipment_grounding_question;

/*
 The size of a conductor: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_conductor_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     The least size; 0 where it cannot be told.
     */
    lw_wire_size size;
} lw_conductor_answer;

/*
 The service that a grounding electrode conductor belongs to. Make one with `lw_grounding_electrode_question_init`.
 Everything must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_grounding_electrode_question)`.
     */
    size_t struct_size;
    /*
     The material of the largest ungrounded service conductor.
     */
    lw_material service_material;
    /*
     Its size.
     */
    lw_wire_size service_size;
    /*
     The material of the grounding electrode conductor.
     */
    lw_material material;
    /*
     Zero.
     */
    int32_t reserved;
} lw_grounding_electrode_question;

/*
 The service of a dwelling. Make one with `lw_dwelling_service_question_init`. Everything must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_dwelling_service_question)`.
     */
    size_t struct_size;
    /*
     The rating of the service or main power feeder, in amperes.
     */
    double rating_a;
    /*
     The material of its conductors.
     */
    lw_material material;
    /*
     Zero.
     */
    int32_t reserved;
} lw_dwelling_service_question;

/*
 A plug and a receptacle. Make one with `lw_plug_question_init`. Both must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_plug_question)`.
     */
    size_t struct_size;
    /*
     The configuration of the plug.
     */
    lw_configuration plug;
    /*
     The configuration of the receptacle.
     */
    lw_configuration receptacle;
    /*
     What the supply behind the receptacle gives, in amperes; NAN where it is not known.
     */
    double supply_a;
} lw_plug_question;

/*
 Whether they mate: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_plug_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where they mate, `LW_OUTCOME_FAILS` where they do not, `LW_OUTCOME_CANNOT_TELL` where some makes
     of the pair do.
     */
    lw_outcome outcome;
    /*
     What limits the current.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     Zero.
     */
    uint32_t reserved;
    /*
     The current that the pair may carry, in amperes; NAN where it does not mate.
     */
    double governing_a;
} lw_plug_answer;

/*
 How the strands of a conductor lie: one of the `LW_STRANDING_` constants, 0 where it is not stated.
 */
typedef int32_t lw_stranding;

/*
 Like conductors in a raceway, grounding conductors too. Make one with `lw_occupant_init`. Count and size must be
 stated, and the insulation, or that they are bare.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_occupant)`, the same in all of an array.
     */
    size_t struct_size;
    /*
     How many, 1 to 999.
     */
    int32_t count;
    /*
     Their size.
     */
    lw_wire_size size;
    /*
     Their insulation.
     */
    lw_insulation insulation;
    /*
     How their strands lie; the usual way where it is not stated.
     */
    lw_stranding stranding;
    /*
     `LW_YES` where they are bare.
     */
    lw_yes_no bare;
    /*
     Zero.
     */
    int32_t reserved;
} lw_occupant;

/*
 A raceway: one of the `LW_RACEWAY_` constants, 0 where it is not stated.
 */
typedef int32_t lw_raceway;

/*
 A raceway to size. Make one with `lw_size_raceway_question_init`. Kind and occupants must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_raceway_question)`.
     */
    size_t struct_size;
    /*
     What is in it; only read during the call.
     */
    const lw_occupant *occupants;
    /*
     How many sorts, 1 to `LW_MOST_OCCUPANTS`.
     */
    size_t occupant_count;
    /*
     The raceway.
     */
    lw_raceway kind;
    /*
     `LW_YES` for a nipple, at most 24 in between boxes; a run where it is not stated.
     */
    lw_yes_no nipple;
} lw_size_raceway_question;

/*
 The trade size of a raceway: one of the `LW_TRADE_SIZE_` constants, 0 where it is not stated.
 */
typedef int32_t lw_trade_size;

/*
 A raceway: an output.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_size_raceway_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where none is large enough.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     The trade size.
     */
    lw_trade_size trade_size;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     The share of its area that may be taken, in percent.
     */
    double fill_limit_percent;
} lw_size_raceway_answer;

/*
 A method for the voltage drop: one of the `LW_METHOD_` constants. 0 is not stated.
 */
typedef int32_t lw_method;

/*
 How the conductors of a circuit carry its current: one of the `LW_CIRCUIT_` constants. 0 is not stated.
 */
typedef int32_t lw_circuit;

/*
 One stretch of a path. Make one with `lw_segment_init`. A conductor is stated by material and size, or by its
 resistance (and reactance, where the method uses it).
 */
typedef struct {
    /*
     Set it to `sizeof(lw_segment)`, the same in all of an array.
     */
    size_t struct_size;
    /*
     The material of the conductors.
     */
    lw_material material;
    /*
     Their size.
     */
    lw_wire_size size;
    /*
     The resistance of one conductor in ohms per 1000 ft, in place of material and size, or NAN.
     */
    double resistance_ohm_per_kft;
    /*
     Its reactance in ohms per 1000 ft, or NAN.
     */
    double reactance_ohm_per_kft;
    /*
     The material of the return or neutral conductor, where it differs.
     */
    lw_material neutral_material;
    /*
     Its size.
     */
    lw_wire_size neutral_size;
    /*
     Its resistance in ohms per 1000 ft, in place of material and size, or NAN.
     */
    double neutral_resistance_ohm_per_kft;
    /*
     Its reactance in ohms per 1000 ft, or NAN.
     */
    double neutral_reactance_ohm_per_kft;
    /*
     The length, one way, in feet, or NAN.
     */
    double length_ft;
    /*
     The same in meters, in place of it, or NAN.
     */
    double length_m;
    /*
     The current in amperes; on three wires that of the leg asked about.
     */
    double current_a;
    /*
     The current of the other leg in amperes, on three wires; else NAN.
     */
    double other_leg_a;
} lw_segment;

/*
 What a conduit is made of: one of the `LW_CONDUIT_` constants, 0 where it is not stated.
 */
typedef int32_t lw_conduit;

/*
 A path and how to reckon. Make one with `lw_voltage_drop_question_init`. Method, circuit, supply and at least one
 segment must be stated.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_voltage_drop_question)`.
     */
    size_t struct_size;
    /*
     How to reckon.
     */
    lw_method method;
    /*
     How the conductors carry the current.
     */
    lw_circuit circuit;
    /*
     The voltage that is sent, in volts.
     */
    double supply_v;
    /*
     The stretches of the path, from the supply to the load; only read during the call.
     */
    const lw_segment *segments;
    /*
     How many, 1 to `LW_MOST_SEGMENTS`.
     */
    size_t segment_count;
    /*
     The temperature of the conductors in °C, for `LW_METHOD_DC`, or NAN.
     */
    double conductor_temperature_c;
    /*
     The same in °F, in place of it, or NAN.
     */
    double conductor_temperature_f;
    /*
     The constant in ohm circular mils per foot, for `LW_METHOD_CONSTANT`.
     */
    double k;
    /*
     The power factor, above 0 and at most 1, for `LW_METHOD_IMPEDANCE` and `LW_METHOD_PHASOR`.
     */
    double power_factor;
    /*
     What the conduit is made of, for the same two.
     */
    lw_conduit conduit;
    /*
     Zero.
     */
    int32_t reserved;
    /*
     The most that may be lost, in percent of the supply; NAN for no limit.
     */
    double limit_percent;
} lw_voltage_drop_question;

/*
 The voltage drop to the load at the end: an output. NAN where it cannot be told.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_voltage_drop_answer)`.
     */
    size_t struct_size;
    /*
     `LW_OUTCOME_HOLDS` where it is within the limit, or answered where there is none; `LW_OUTCOME_FAILS` where it is
     more. Exactly at the limit is within it.
     */
    lw_outcome outcome;
    /*
     What limits it.
     */
    lw_governor governed_by;
    /*
     What was assumed.
     */
    lw_assumed assumed;
    /*
     `LW_YES` where the voltage rises in place of dropping: an unbalanced neutral does that to the lighter leg.
     */
    lw_yes_no rises;
    /*
     The drop (or rise) in volts, rounded up to the millivolt.
     */
    double drop_v;
    /*
     Its share of the supply in percent, rounded up to the ten-thousandth.
     */
    double drop_percent;
    /*
     The voltage at the load in volts, rounded down to the millivolt.
     */
    double at_load_v;
} lw_voltage_drop_answer;

/*
 How a site is checked. Make one with `lw_check_options_init`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_check_options)`.
     */
    size_t struct_size;
    /*
     `LW_YES` where every finding is to carry its working; it costs time otherwise saved.
     */
    lw_yes_no working;
    /*
     Zero.
     */
    int32_t reserved;
} lw_check_options;

/*
 How grave a failure is: one of the `LW_SEVERITY_` constants, the gravest first.
 */
typedef int32_t lw_severity;

/*
 One thing that a rule examined, and what it found: an output. Its texts live as long as the report; one that has
 nothing to say has NULL as its `data`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_finding)`.
     */
    size_t struct_size;
    /*
     How it ended.
     */
    lw_outcome outcome;
    /*
     How grave a failure of the rule is; the gravest two decide about the site.
     */
    lw_severity severity;
    /*
     The slug of the rule, such as `cord-ampacity`.
     */
    lw_str rule;
    /*
     The kind of the component, such as `cord`.
     */
    lw_str kind;
    /*
     The name of the component.
     */
    lw_str component;
    /*
     The field that decided.
     */
    lw_str field;
    /*
     The finding in one sentence.
     */
    lw_str message;
    /*
     What was measured, with its unit.
     */
    lw_str measured;
    /*
     The limit, with its unit.
     */
    lw_str limit;
    /*
     The sections and listings that it rests on.
     */
    lw_str citation;
    /*
     What would mend it, with the smallest standard size that does.
     */
    lw_str remedy;
    /*
     The document, as the caller named it.
     */
    lw_str file;
    /*
     The path of the field, such as `cord[0].size`.
     */
    lw_str path;
    /*
     The line, from 1; 0 where there is none.
     */
    uint32_t line;
    /*
     The column in characters, from 1; 0 where there is none.
     */
    uint32_t column;
    /*
     How many steps its working has: `lw_report_step` gives them.
     */
    size_t step_count;
} lw_finding;

/*
 One step of a working: an output. Its texts live as long as the object that it was asked of; one that has nothing to
 say has NULL as its `data`.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_step)`.
     */
    size_t struct_size;
    /*
     What was done, in a few words.
     */
    lw_str what;
    /*
     What came of it, with its unit.
     */
    lw_str result;
    /*
     The section that asks for it, or the table that it was read from.
     */
    lw_str citation;
    /*
     The row and column of the cell, where one was read.
     */
    lw_str cell;
    /*
     How the cell is witnessed.
     */
    lw_str grade;
} lw_step;

/*
 A fact to find out, and what it would decide: an output. Its texts live as long as the report.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_open_question)`.
     */
    size_t struct_size;
    /*
     The kind of the component.
     */
    lw_str kind;
    /*
     The name of the component.
     */
    lw_str component;
    /*
     The field to fill in.
     */
    lw_str field;
    /*
     The question in one sentence.
     */
    lw_str question;
    /*
     The slugs of the rules that wait for it, with `, ` between them.
     */
    lw_str decides;
    /*
     The document, as the caller named it.
     */
    lw_str file;
    /*
     The path of the field or of its component.
     */
    lw_str path;
    /*
     The line, from 1; 0 where there is none.
     */
    uint32_t line;
    /*
     The column in characters, from 1; 0 where there is none.
     */
    uint32_t column;
} lw_open_question;

/*
 What an order is for: one of the `LW_PURPOSE_` constants.
 */
typedef int32_t lw_purpose;

/*
 One step of an order: an output. Its texts live as long as the sequence.
 */
typedef struct {
    /*
     Set it to `sizeof(lw_switching_step)`.
     */
    size_t struct_size;
    /*
     The source that the order belongs to.
     */
    lw_str source;
    /*
     What the order is for.
     */
    lw_purpose purpose;
    /*
     The number of the step in its order, from 1.
     */
    uint32_t number;
    /*
     What to do.
     */
    lw_str operation;
    /*
     What to see before going on.
     */
    lw_str see;
    /*
     Why it is there and comes there.
     */
    lw_str because;
} lw_switching_step;

/*
 `double`; NAN is no value.
 */
#define LW_LAYOUT_F64 1

/*
 `float`; six significant digits count.
 */
#define LW_LAYOUT_F32 2

/*
 `int64_t`.
 */
#define LW_LAYOUT_I64 3

/*
 `int32_t`.
 */
#define LW_LAYOUT_I32 4

/*
 `int16_t`.
 */
#define LW_LAYOUT_I16 5

/*
 `int8_t`.
 */
#define LW_LAYOUT_I8 6

/*
 `uint64_t`.
 */
#define LW_LAYOUT_U64 7

/*
 `uint32_t`.
 */
#define LW_LAYOUT_U32 8

/*
 `uint16_t`.
 */
#define LW_LAYOUT_U16 9

/*
 `uint8_t`.
 */
#define LW_LAYOUT_U8 10

/*
 Integers of 128 bits in the order of the machine, aligned to 16 bytes, that count 10 to the power of minus `scale`.
 */
#define LW_LAYOUT_DECIMAL128 11

/*
 `lw_str`, one a row: pointer and length, UTF-8; where `data` is NULL the value is missing.
 */
#define LW_LAYOUT_STRINGS 12

/*
 Texts one behind the other in `byte_count` bytes at `data`, with `rows` + 1 offsets of `int32_t` at `offsets`.
 */
#define LW_LAYOUT_JOINED_32 13

/*
 The same with offsets of `int64_t`.
 */
#define LW_LAYOUT_JOINED_64 14

/*
 Yes and no, a bit a row, the least significant of a byte first; the first row has the bit `data_offset`.
 */
#define LW_LAYOUT_FLAGS 15

/*
 The load is within the usable ampacity of the conductor.
 */
#define LW_CHECK_CONDUCTOR_AMPACITY 1

/*
 The continuous load with its factor is within the ampacity before factors.
 */
#define LW_CHECK_CONTINUOUS_LOAD_ON_CONDUCTOR 2

/*
 The continuous load with its factor is within the rating of the device.
 */
#define LW_CHECK_CONTINUOUS_LOAD_ON_DEVICE 3

/*
 The device is no larger than the conductor permits.
 */
#define LW_CHECK_BREAKER_PROTECTS_CONDUCTOR 4

/*
 The drop is within its limit.
 */
#define LW_CHECK_VOLTAGE_DROP 5

/*
 1-15.
 */
#define LW_CONFIGURATION_1_15 1

/*
 5-15.
 */
#define LW_CONFIGURATION_5_15 2

/*
 5-20.
 */
#define LW_CONFIGURATION_5_20 3

/*
 5-30.
 */
#define LW_CONFIGURATION_5_30 4

/*
 5-50.
 */
#define LW_CONFIGURATION_5_50 5

/*
 6-15.
 */
#define LW_CONFIGURATION_6_15 6

/*
 6-20.
 */
#define LW_CONFIGURATION_6_20 7

/*
 6-30.
 */
#define LW_CONFIGURATION_6_30 8

/*
 6-50.
 */
#define LW_CONFIGURATION_6_50 9

/*
 10-30.
 */
#define LW_CONFIGURATION_10_30 10

/*
 10-50.
 */
#define LW_CONFIGURATION_10_50 11

/*
 14-15.
 */
#define LW_CONFIGURATION_14_15 12

/*
 14-20.
 */
#define LW_CONFIGURATION_14_20 13

/*
 14-30.
 */
#define LW_CONFIGURATION_14_30 14

/*
 14-50.
 */
#define LW_CONFIGURATION_14_50 15

/*
 14-60.
 */
#define LW_CONFIGURATION_14_60 16

/*
 TT-30.
 */
#define LW_CONFIGURATION_TT_30 17

/*
 L5-15.
 */
#define LW_CONFIGURATION_L5_15 18

/*
 L5-20.
 */
#define LW_CONFIGURATION_L5_20 19

/*
 L5-30.
 */
#define LW_CONFIGURATION_L5_30 20

/*
 L6-15.
 */
#define LW_CONFIGURATION_L6_15 21

/*
 L6-20.
 */
#define LW_CONFIGURATION_L6_20 22

/*
 L6-30.
 */
#define LW_CONFIGURATION_L6_30 23

/*
 L14-20.
 */
#define LW_CONFIGURATION_L14_20 24

/*
 L14-30.
 */
#define LW_CONFIGURATION_L14_30 25

/*
 L21-30.
 */
#define LW_CONFIGURATION_L21_30 26

/*
 SS2-50.
 */
#define LW_CONFIGURATION_SS2_50 27

/*
 CS-50-125/250.
 */
#define LW_CONFIGURATION_CS_50_125_250 28

/*
 IEC 60309 16 A blue 2P+E.
 */
#define LW_CONFIGURATION_IEC_60309_16_A_BLUE_2P_E 29

/*
 IEC 60309 32 A blue 2P+E.
 */
#define LW_CONFIGURATION_IEC_60309_32_A_BLUE_2P_E 30

/*
 IEC 60309 63 A blue 2P+E.
 */
#define LW_CONFIGURATION_IEC_60309_63_A_BLUE_2P_E 31

/*
 IEC 60309 16 A red 3P+N+E.
 */
#define LW_CONFIGURATION_IEC_60309_16_A_RED_3P_N_E 32

/*
 IEC 60309 32 A red 3P+N+E.
 */
#define LW_CONFIGURATION_IEC_60309_32_A_RED_3P_N_E 33

/*
 IEC 60309 63 A red 3P+N+E.
 */
#define LW_CONFIGURATION_IEC_60309_63_A_RED_3P_N_E 34

/*
 IEC 60309 16 A red 3P+E.
 */
#define LW_CONFIGURATION_IEC_60309_16_A_RED_3P_E 35

/*
 IEC 60309 32 A red 3P+E.
 */
#define LW_CONFIGURATION_IEC_60309_32_A_RED_3P_E 36

/*
 IEC 60309 63 A red 3P+E.
 */
#define LW_CONFIGURATION_IEC_60309_63_A_RED_3P_E 37

/*
 Copper.
 */
#define LW_MATERIAL_COPPER 1

/*
 Aluminum.
 */
#define LW_MATERIAL_ALUMINUM 2

/*
 Copper-clad aluminum: the aluminum columns of the tables hold for it.
 */
#define LW_MATERIAL_COPPER_CLAD_ALUMINUM 3

/*
 Thermoplastic, moisture resistant.
 */
#define LW_INSULATION_TW 1

/*
 Underground feeder conductor.
 */
#define LW_INSULATION_UF 2

/*
 Thermoplastic, heat and moisture resistant.
 */
#define LW_INSULATION_THW 3

/*
 With a nylon jacket, for wet places.
 */
#define LW_INSULATION_THWN 4

/*
 Thermoplastic, heat resistant dry, moisture resistant.
 */
#define LW_INSULATION_THHW 5

/*
 Thermoplastic with a nylon jacket, dry and damp places.
 */
#define LW_INSULATION_THHN 6

/*
 As THW, 90 °C wet and dry.
 */
#define LW_INSULATION_THW_2 7

/*
 As THWN, 90 °C wet and dry; most building wire carries this mark beside THHN.
 */
#define LW_INSULATION_THWN_2 8

/*
 Cross-linked polyethylene, moisture resistant.
 */
#define LW_INSULATION_XHHW 9

/*
 As XHHW, 90 °C wet and dry.
 */
#define LW_INSULATION_XHHW_2 10

/*
 Cross-linked polyethylene, dry and damp places.
 */
#define LW_INSULATION_XHH 11

/*
 Thermoset, dry and damp places.
 */
#define LW_INSULATION_RHH 12

/*
 Thermoset, moisture resistant.
 */
#define LW_INSULATION_RHW 13

/*
 As RHW, 90 °C wet and dry.
 */
#define LW_INSULATION_RHW_2 14

/*
 Underground service entrance.
 */
#define LW_INSULATION_USE 15

/*
 As USE, 90 °C wet and dry.
 */
#define LW_INSULATION_USE_2 16

/*
 Modified ethylene tetrafluoroethylene.
 */
#define LW_INSULATION_ZW 17

/*
 As ZW, 90 °C wet and dry.
 */
#define LW_INSULATION_ZW_2 18

/*
 Fluorinated ethylene propylene.
 */
#define LW_INSULATION_FEP 19

/*
 Fluorinated ethylene propylene with a braid.
 */
#define LW_INSULATION_FEPB 20

/*
 Mineral insulated, metal sheathed.
 */
#define LW_INSULATION_MI 21

/*
 Silicone.
 */
#define LW_INSULATION_SA 22

/*
 Thermoset for switchboards.
 */
#define LW_INSULATION_SIS 23

/*
 Thermoplastic with a braid, for switchboards.
 */
#define LW_INSULATION_TBS 24

/*
 Machine tool wire.
 */
#define LW_INSULATION_MTW 25

/*
 Nonmetallic-sheathed, dry places.
 */
#define LW_CABLE_NM_B 1

/*
 Nonmetallic-sheathed, damp and corrosive places.
 */
#define LW_CABLE_NMC_B 2

/*
 Underground feeder and branch-circuit cable.
 */
#define LW_CABLE_UF_B 3

/*
 Service-entrance cable used inside.
 */
#define LW_CABLE_SE 4

/*
 Armored.
 */
#define LW_CABLE_AC 5

/*
 Metal-clad.
 */
#define LW_CABLE_MC 6

/*
 In a raceway.
 */
#define LW_INSTALLATION_RACEWAY 1

/*
 In a cable assembly.
 */
#define LW_INSTALLATION_CABLE 2

/*
 Directly buried.
 */
#define LW_INSTALLATION_BURIED 3

/*
 Single conductors in free air.
 */
#define LW_INSTALLATION_FREE_AIR 4

/*
 Not normally damp or wet.
 */
#define LW_PLACE_DRY 1

/*
 Protected from weather, some moisture.
 */
#define LW_PLACE_DAMP 2

/*
 Exposed to weather, in the ground, or saturated.
 */
#define LW_PLACE_WET 3

/*
 Nonmetallic.
 */
#define LW_CONDUIT_PVC 1

/*
 Aluminum.
 */
#define LW_CONDUIT_ALUMINUM 2

/*
 Steel.
 */
#define LW_CONDUIT_STEEL 3

/*
 60 °C.
 */
#define LW_TERMINALS_60C 1

/*
 75 °C, or 60/75 °C.
 */
#define LW_TERMINALS_75C 2

/*
 90 °C.
 */
#define LW_TERMINALS_90C 3

/*
 Not marked: the code's default for the circuit's rating holds.
 */
#define LW_TERMINALS_UNMARKED 4

/*
 An inverse-time circuit breaker.
 */
#define LW_DEVICE_KIND_BREAKER 1

/*
 A fuse.
 */
#define LW_DEVICE_KIND_FUSE 2

/*
 The usual device: 80 % of its rating.
 */
#define LW_CONTINUOUS_RATING_80_PERCENT 1

/*
 The device and its assembly are listed for 100 %.
 */
#define LW_CONTINUOUS_RATING_100_PERCENT 2

/*
 300 V thermoset.
 */
#define LW_CORD_SJ 1

/*
 300 V, oil-resistant jacket.
 */
#define LW_CORD_SJO 2

/*
 300 V, oil-resistant jacket, outdoors.
 */
#define LW_CORD_SJOW 3

/*
 300 V, oil-resistant throughout.
 */
#define LW_CORD_SJOO 4

/*
 300 V, oil-resistant throughout, outdoors.
 */
#define LW_CORD_SJOOW 5

/*
 300 V elastomer.
 */
#define LW_CORD_SJE 6

/*
 300 V elastomer, outdoors.
 */
#define LW_CORD_SJEW 7

/*
 300 V elastomer, oil-resistant jacket.
 */
#define LW_CORD_SJEO 8

/*
 300 V elastomer, oil-resistant jacket, outdoors.
 */
#define LW_CORD_SJEOW 9

/*
 300 V elastomer, oil-resistant throughout.
 */
#define LW_CORD_SJEOO 10

/*
 300 V elastomer, oil-resistant throughout, outdoors.
 */
#define LW_CORD_SJEOOW 11

/*
 300 V thermoplastic.
 */
#define LW_CORD_SJT 12

/*
 300 V thermoplastic, outdoors.
 */
#define LW_CORD_SJTW 13

/*
 300 V thermoplastic, oil-resistant jacket.
 */
#define LW_CORD_SJTO 14

/*
 300 V thermoplastic, oil-resistant jacket, outdoors.
 */
#define LW_CORD_SJTOW 15

/*
 300 V thermoplastic, oil-resistant throughout.
 */
#define LW_CORD_SJTOO 16

/*
 300 V thermoplastic, oil-resistant throughout, outdoors.
 */
#define LW_CORD_SJTOOW 17

/*
 600 V thermoset.
 */
#define LW_CORD_S 18

/*
 600 V, oil-resistant jacket.
 */
#define LW_CORD_SO 19

/*
 600 V, oil-resistant jacket, outdoors.
 */
#define LW_CORD_SOW 20

/*
 600 V, oil-resistant throughout.
 */
#define LW_CORD_SOO 21

/*
 600 V, oil-resistant throughout, outdoors.
 */
#define LW_CORD_SOOW 22

/*
 600 V elastomer.
 */
#define LW_CORD_SE 23

/*
 600 V elastomer, outdoors.
 */
#define LW_CORD_SEW 24

/*
 600 V elastomer, oil-resistant jacket.
 */
#define LW_CORD_SEO 25

/*
 600 V elastomer, oil-resistant jacket, outdoors.
 */
#define LW_CORD_SEOW 26

/*
 600 V elastomer, oil-resistant throughout.
 */
#define LW_CORD_SEOO 27

/*
 600 V elastomer, oil-resistant throughout, outdoors.
 */
#define LW_CORD_SEOOW 28

/*
 600 V thermoplastic.
 */
#define LW_CORD_ST 29

/*
 600 V thermoplastic, outdoors.
 */
#define LW_CORD_STW 30

/*
 600 V thermoplastic, oil-resistant jacket.
 */
#define LW_CORD_STO 31

/*
 600 V thermoplastic, oil-resistant jacket, outdoors.
 */
#define LW_CORD_STOW 32

/*
 600 V thermoplastic, oil-resistant throughout.
 */
#define LW_CORD_STOO 33

/*
 600 V thermoplastic, oil-resistant throughout, outdoors.
 */
#define LW_CORD_STOOW 34

/*
 600 V single-conductor portable cable, thermoset.
 */
#define LW_CORD_SC 35

/*
 600 V single-conductor portable cable, elastomer.
 */
#define LW_CORD_SCE 36

/*
 600 V single-conductor portable cable, thermoplastic.
 */
#define LW_CORD_SCT 37

/*
 2000 V portable cable.
 */
#define LW_CORD_W 38

/*
 2000 V portable cable, elastomer.
 */
#define LW_CORD_PPE 39

/*
 2000 V portable cable with grounding conductors.
 */
#define LW_CORD_G 40

/*
 2000 V portable cable with grounding and ground-check conductors.
 */
#define LW_CORD_G_GC 41

/*
 Parallel cord, 300 V.
 */
#define LW_CORD_SPT_1 42

/*
 Parallel cord, outdoors.
 */
#define LW_CORD_SPT_1W 43

/*
 Parallel cord, heavier.
 */
#define LW_CORD_SPT_2 44

/*
 Parallel cord, heavier, outdoors.
 */
#define LW_CORD_SPT_2W 45

/*
 Parallel cord, heaviest.
 */
#define LW_CORD_SPT_3 46

/*
 Range and dryer cord.
 */
#define LW_CORD_SRDT 47

/*
 Light appliance cord, thermoset.
 */
#define LW_CORD_SV 48

/*
 Light appliance cord, thermoplastic.
 */
#define LW_CORD_SVT 49

/*
 Vehicle charging cable.
 */
#define LW_CORD_EV 50

/*
 Light vehicle charging cable.
 */
#define LW_CORD_EVJ 51

/*
 Heater cord, parallel.
 */
#define LW_CORD_HPD 52

/*
 Heater cord, parallel, thermoset.
 */
#define LW_CORD_HPN 53

/*
 Heater cord, jacketed.
 */
#define LW_CORD_HSJ 54

/*
 Heater cord, oil-resistant jacket.
 */
#define LW_CORD_HSJO 55

/*
 Heater cord, oil-resistant jacket, outdoors.
 */
#define LW_CORD_HSJOW 56

/*
 Heater cord, oil-resistant throughout.
 */
#define LW_CORD_HSJOO 57

/*
 Heater cord, oil-resistant throughout, outdoors.
 */
#define LW_CORD_HSJOOW 58

/*
 Not hard usage.
 */
#define LW_USAGE_NOT_HARD 1

/*
 Hard usage.
 */
#define LW_USAGE_HARD 2

/*
 Extra-hard usage.
 */
#define LW_USAGE_EXTRA_HARD 3

/*
 For ranges and dryers.
 */
#define LW_USAGE_RANGES_AND_DRYERS 4

/*
 Electrical metallic tubing.
 */
#define LW_RACEWAY_EMT 1

/*
 Electrical nonmetallic tubing.
 */
#define LW_RACEWAY_ENT 2

/*
 Flexible metal conduit.
 */
#define LW_RACEWAY_FMC 3

/*
 Intermediate metal conduit.
 */
#define LW_RACEWAY_IMC 4

/*
 Liquidtight flexible metal conduit.
 */
#define LW_RACEWAY_LFMC 5

/*
 Rigid metal conduit.
 */
#define LW_RACEWAY_RMC 6

/*
 Rigid PVC conduit of Schedule 40.
 */
#define LW_RACEWAY_PVC_40 7

/*
 Rigid PVC conduit of Schedule 80.
 */
#define LW_RACEWAY_PVC_80 8

/*
 Round strands, as in most building wire of copper.
 */
#define LW_STRANDING_USUAL 1

/*
 Compacted strands, as in most building wire of aluminum.
 */
#define LW_STRANDING_COMPACT 2

/*
 3/8 in.
 */
#define LW_TRADE_SIZE_3_8_IN 1

/*
 1/2 in.
 */
#define LW_TRADE_SIZE_1_2_IN 2

/*
 3/4 in.
 */
#define LW_TRADE_SIZE_3_4_IN 3

/*
 1 in.
 */
#define LW_TRADE_SIZE_1_IN 4

/*
 1-1/4 in.
 */
#define LW_TRADE_SIZE_1_1_4_IN 5

/*
 1-1/2 in.
 */
#define LW_TRADE_SIZE_1_1_2_IN 6

/*
 2 in.
 */
#define LW_TRADE_SIZE_2_IN 7

/*
 2-1/2 in.
 */
#define LW_TRADE_SIZE_2_1_2_IN 8

/*
 3 in.
 */
#define LW_TRADE_SIZE_3_IN 9

/*
 3-1/2 in.
 */
#define LW_TRADE_SIZE_3_1_2_IN 10

/*
 4 in.
 */
#define LW_TRADE_SIZE_4_IN 11

/*
 5 in.
 */
#define LW_TRADE_SIZE_5_IN 12

/*
 6 in.
 */
#define LW_TRADE_SIZE_6_IN 13

/*
 NEC 2017.
 */
#define LW_EDITION_NEC_2017 2017

/*
 NEC 2020.
 */
#define LW_EDITION_NEC_2020 2020

/*
 NEC 2023.
 */
#define LW_EDITION_NEC_2023 2023

/*
 1/0 AWG.
 */
#define LW_WIRE_SIZE_1_0_AWG -1

/*
 2/0 AWG.
 */
#define LW_WIRE_SIZE_2_0_AWG -2

/*
 3/0 AWG.
 */
#define LW_WIRE_SIZE_3_0_AWG -3

/*
 4/0 AWG.
 */
#define LW_WIRE_SIZE_4_0_AWG -4

/*
 It holds; a site is loadworthy; a question is answered.
 */
#define LW_OUTCOME_HOLDS 1

/*
 It fails; a site is not loadworthy; the answer to a question is no.
 */
#define LW_OUTCOME_FAILS 2

/*
 A fact is missing, or a table does not tell. Never take it for "holds".
 */
#define LW_OUTCOME_CANNOT_TELL 3

/*
 Never allowed, whatever else holds.
 */
#define LW_SEVERITY_PROHIBITED 1

/*
 Breaks a code section or a listing.
 */
#define LW_SEVERITY_VIOLATION 2

/*
 Likely trouble, or advice that the code gives without requiring it.
 */
#define LW_SEVERITY_CAUTION 3

/*
 Reported only.
 */
#define LW_SEVERITY_INFORMATION 4

/*
 Yes.
 */
#define LW_YES 1

/*
 No.
 */
#define LW_NO 2

/*
 Conductors of an insulation lie in a raceway, those of a cable in the cable.
 */
#define LW_ASSUMED_INSTALLATION 1

/*
 The place is dry.
 */
#define LW_ASSUMED_DRY_PLACE 2

/*
 The ambient temperature is 30 °C.
 */
#define LW_ASSUMED_AMBIENT_30C 4

/*
 It is not above a roof in sunlight.
 */
#define LW_ASSUMED_NO_ROOF 8

/*
 Three conductors carry current.
 */
#define LW_ASSUMED_THREE_CONDUCTORS 16

/*
 Terminals bear no temperature mark.
 */
#define LW_ASSUMED_TERMINALS_UNMARKED 32

/*
 The size decides how unmarked terminals count, 110.14(C)(1), since the rating of the circuit is not stated.
 */
#define LW_ASSUMED_RATING_BY_SIZE 64

/*
 The cord bears no temperature mark.
 */
#define LW_ASSUMED_CORD_UNMARKED 128

/*
 The return or neutral conductor is like the others.
 */
#define LW_ASSUMED_RETURN_ALIKE 256

/*
 Conductors are at 75 °C.
 */
#define LW_ASSUMED_CONDUCTORS_75C 512

/*
 The device and its assembly are not listed for 100 % of the rating.
 */
#define LW_ASSUMED_NOT_LISTED_100_PERCENT 1024

/*
 The supply gives what plug and receptacle are rated for.
 */
#define LW_ASSUMED_SUPPLY_AMPLE 2048

/*
 Circuit conductors are no larger than they need to be.
 */
#define LW_ASSUMED_NOT_ENLARGED 4096

/*
 No limit on the voltage drop.
 */
#define LW_ASSUMED_NO_DROP_LIMIT 8192

/*
 The equipment grounding conductor is of the material of the others.
 */
#define LW_ASSUMED_GROUNDING_ALIKE 16384

/*
 The conductor itself, corrected and adjusted.
 */
#define LW_GOVERNOR_CONDUCTOR 1

/*
 The terminals.
 */
#define LW_GOVERNOR_TERMINALS 2

/*
 The cable.
 */
#define LW_GOVERNOR_CABLE 3

/*
 The cord.
 */
#define LW_GOVERNOR_CORD 4

/*
 The ampacity is itself the rating, or the next lower standard rating.
 */
#define LW_GOVERNOR_AMPACITY 5

/*
 The next standard rating above the ampacity is permitted.
 */
#define LW_GOVERNOR_NEXT_SIZE_UP 6

/*
 The limit of a small conductor.
 */
#define LW_GOVERNOR_SMALL_CONDUCTOR 7

/*
 The plug.
 */
#define LW_GOVERNOR_PLUG 8

/*
 The receptacle.
 */
#define LW_GOVERNOR_RECEPTACLE 9

/*
 The supply behind the receptacle.
 */
#define LW_GOVERNOR_SUPPLY 10

/*
 The load.
 */
#define LW_GOVERNOR_LOAD 11

/*
 The overcurrent device.
 */
#define LW_GOVERNOR_DEVICE 12

/*
 The circuit conductors, which were enlarged.
 */
#define LW_GOVERNOR_ENLARGED_CONDUCTORS 13

/*
 The service conductor.
 */
#define LW_GOVERNOR_SERVICE_CONDUCTOR 14

/*
 The rating of the service.
 */
#define LW_GOVERNOR_SERVICE_RATING 15

/*
 The smallest size that was asked for.
 */
#define LW_GOVERNOR_ASKED 16

/*
 The smallest conductor that the code allows.
 */
#define LW_GOVERNOR_SMALLEST_CONDUCTOR 17

/*
 The smallest conductor that may be connected in parallel.
 */
#define LW_GOVERNOR_SMALLEST_PARALLEL 18

/*
 The sizes that the table lists and the cable is made in.
 */
#define LW_GOVERNOR_LISTED 19

/*
 The place.
 */
#define LW_GOVERNOR_PLACE 20

/*
 The ambient temperature.
 */
#define LW_GOVERNOR_AMBIENT 21

/*
 The number of conductors together.
 */
#define LW_GOVERNOR_BUNDLING 22

/*
 The continuous load with its factor, before correction and adjustment.
 */
#define LW_GOVERNOR_CONTINUOUS_LOAD 23

/*
 Protection by the overcurrent device.
 */
#define LW_GOVERNOR_PROTECTION 24

/*
 The voltage drop.
 */
#define LW_GOVERNOR_VOLTAGE_DROP 25

/*
 The standard ratings.
 */
#define LW_GOVERNOR_STANDARD_RATING 26

/*
 The ratings that a circuit of several receptacles may have.
 */
#define LW_GOVERNOR_RECEPTACLE_RATING 27

/*
 The equipment grounding conductor that the device asks for.
 */
#define LW_GOVERNOR_EQUIPMENT_GROUNDING 28

/*
 The equipment grounding conductor grows with enlarged circuit conductors.
 */
#define LW_GOVERNOR_EQUIPMENT_GROUNDING_INCREASE 29

/*
 The ungrounded conductors.
 */
#define LW_GOVERNOR_AS_UNGROUNDED 30

/*
 The equipment grounding conductor, which a feeder's neutral is not smaller than.
 */
#define LW_GOVERNOR_FEEDER_NEUTRAL 31

/*
 The share of the raceway that conductors may fill.
 */
#define LW_GOVERNOR_RACEWAY_FILL 32

/*
 The volume of the box.
 */
#define LW_GOVERNOR_BOX_FILL 33

/*
 The overcurrent device that lets the motor start.
 */
#define LW_GOVERNOR_MOTOR_PROTECTION 34

/*
 The rating of the plug and receptacle configuration.
 */
#define LW_GOVERNOR_CONFIGURATION 35

/*
 Leg A.
 */
#define LW_LEG_A 1

/*
 Leg B.
 */
#define LW_LEG_B 2

/*
 Both legs.
 */
#define LW_LEG_BOTH 3

/*
 A branch circuit.
 */
#define LW_ROLE_BRANCH 1

/*
 A feeder.
 */
#define LW_ROLE_FEEDER 2

/*
 One line and the neutral.
 */
#define LW_CONDUCTORS_LINE_AND_NEUTRAL 1

/*
 Two lines.
 */
#define LW_CONDUCTORS_TWO_LINES 2

/*
 Two lines and the neutral.
 */
#define LW_CONDUCTORS_TWO_LINES_AND_NEUTRAL 3

/*
 Three phases.
 */
#define LW_CONDUCTORS_THREE_PHASE 4

/*
 Three phases and the neutral.
 */
#define LW_CONDUCTORS_THREE_PHASE_AND_NEUTRAL 5

/*
 More than one receptacle for cord-and-plug portable loads: no device above the ampacity.
 */
#define LW_SUPPLIES_SEVERAL_RECEPTACLES 1

/*
 Anything else.
 */
#define LW_SUPPLIES_OTHER 2

/*
 Direct-current resistance, Chapter 9 Table 8, corrected to the temperature of the conductors.
 */
#define LW_METHOD_DC 1

/*
 The constant K over circular mils.
 */
#define LW_METHOD_CONSTANT 2

/*
 Effective impedance at a power factor, Chapter 9 Table 9.
 */
#define LW_METHOD_IMPEDANCE 3

/*
 The exact phasor at a power factor.
 */
#define LW_METHOD_PHASOR 4

/*
 Two wires.
 */
#define LW_CIRCUIT_TWO_WIRE 1

/*
 Two legs and a neutral; the drop is that of one leg, its voltage that of a leg.
 */
#define LW_CIRCUIT_THREE_WIRE 2

/*
 Three phases, balanced; the voltage and the drop are between lines.
 */
#define LW_CIRCUIT_THREE_PHASE 3

/*
 From the normal state to the chosen loads on the source.
 */
#define LW_PURPOSE_CONNECT 1

/*
 From there to the building on the utility, the source still running without load.
 */
#define LW_PURPOSE_RETURN 2

/*
 From there to the normal state.
 */
#define LW_PURPOSE_DISCONNECT 3

/*
 To refuel while the loads are on the source, and back to them; for a source with an engine.
 */
#define LW_PURPOSE_REFUEL 4

/*
 The outputs hold what was asked for.
 */
#define LW_STATUS_OK 0

/*
 A pointer that must not be NULL is NULL.
 */
#define LW_STATUS_NULL_POINTER 1

/*
 A pointer is not aligned as its type must be.
 */
#define LW_STATUS_MISALIGNED 2

/*
 The `struct_size` of a struct is none that this library knows, or a field that it does not know is not zero.
 */
#define LW_STATUS_STRUCT_SIZE 3

/*
 A length or a count is larger than is taken.
 */
#define LW_STATUS_TOO_LARGE 4

/*
 A text is not UTF-8.
 */
#define LW_STATUS_NOT_UTF8 5

/*
 A field is not stated without which there is no answer.
 */
#define LW_STATUS_NOT_STATED 6

/*
 A number is out of its range, not finite, or finer than it is kept.
 */
#define LW_STATUS_BAD_NUMBER 7

/*
 A number that stands for a choice is none of its constants, or a word is none that is known.
 */
#define LW_STATUS_BAD_CHOICE 8

/*
 Fields that exclude each other are both stated.
 */
#define LW_STATUS_CONTRADICTION 9

/*
 A document could not be read; the error lists every problem with its place.
 */
#define LW_STATUS_DOCUMENT 10

/*
 There is nothing of that index.
 */
#define LW_STATUS_NO_SUCH_INDEX 11

/*
 What was asked cannot be of this site; the error lists why, each with its place.
 */
#define LW_STATUS_IMPOSSIBLE 12

/*
 A defect of the library: a panic was caught. Every handle stays usable.
 */
#define LW_STATUS_PANIC 13

/*
 The caller's own function asked to stop.
 */
#define LW_STATUS_STOPPED 14

/*
 Columns are unknown, missing, of a wrong type or of a wrong length; the error lists all of them.
 */
#define LW_STATUS_COLUMNS 15

/*
 A table is none that the Arrow C data interface describes.
 */
#define LW_STATUS_ARROW 16

/*
 An option of a question that was asked by name could not be understood, or is missing; the error's place is its name.
 */
#define LW_STATUS_NOT_UNDERSTOOD 17

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/*
 Judges a table of circuits that comes by the Arrow C data interface, without copying it, and gives one of answers.

 `schema` and `array` are a struct whose children are columns, named and read as `lw_column` says; numbers may be
 floating-point, whole or decimal128, words utf8, large utf8, views or dictionaries. `array` is moved in: after the call
 it counts as released, whatever the status, unless a pointer was NULL or not aligned. `schema` stays the caller's.

 `*schema_out` and `*array_out` take the answers, one row each in the same order; the caller releases them by their own
 `release`. On failure both count as released. Verdicts and reasons are dictionaries of words: `holds` alone is a pass.
 `options` may be NULL. Several threads may judge at once.

 ```c
 struct ArrowSchema answers;
 struct ArrowArray rows;
 if (lw_batch_judge_arrow(code, &schema, &array, NULL, &answers, &rows, NULL) == LW_STATUS_OK) {
     rows.release(&rows);
     answers.release(&answers);
 }
 ```
 */
lw_status lw_batch_judge_arrow(const lw_code *code,
                               const ArrowSchema *schema,
                               ArrowArray *array,
                               const lw_batch_options *options,
                               ArrowSchema *schema_out,
                               ArrowArray *array_out,
                               lw_error **error_out);

/*
 Asks a question by its name: each that `loadworthy calc` and `loadworthy size` answer, with the same options.

 `question` is its name: `ampacity`, `voltage-drop`, and with `size-` before it what `loadworthy size` answers:
 `size-motor`, `size-kit`, `size-solve`. `loadworthy calc --help` and `loadworthy size --help` list them.

 `names` and `values` are arrays of `count` texts, at most 4096: each option by its name, with dashes or underscores and
 nothing before it, and its value as text with its unit: `current`, `24 A`. An option that may be said several times
 stands once for each value, in their order. A value whose `data` is NULL is not stated. The texts are read during the
 call alone.

 A question of an unknown name is `LW_STATUS_BAD_CHOICE`. An option that the question has not, one said twice, one that
 is missing, and a value that cannot be read are `LW_STATUS_NOT_UNDERSTOOD`: the message of the error says what to write,
 and its place is the name of the option. On success `*answer_out` owns the answer, which keeps its code: release it with
 `lw_answer_free`. Where a table does not tell, there is an answer whose outcome is `LW_OUTCOME_CANNOT_TELL`.

 Nothing but the outputs is written: any number of threads may ask at once, of one code.

 ```c
 lw_str names[] = {lw_text("output"), lw_text("voltage"), lw_text("phases"), lw_text("material"), lw_text("insulation"),
                   lw_text("device")};
 lw_str values[] = {lw_text("5 hp"), lw_text("230 V"), lw_text("single-phase"), lw_text("copper"), lw_text("THWN-2"),
                    lw_text("inverse-time breaker")};
 lw_answer *answer;
 lw_str text;
 if (lw_ask(code, "size-motor", strlen("size-motor"), names, values, 6, &answer, NULL) == LW_STATUS_OK) {
     if (lw_answer_text(answer, &text, NULL) == LW_STATUS_OK) puts(text.data);
     lw_answer_free(answer);
 }
 ```
 */
lw_status lw_ask(const lw_code *code,
                 const char *question,
                 size_t question_len,
                 const lw_str *names,
                 const lw_str *values,
                 size_t count,
                 lw_answer **answer_out,
                 lw_error **error_out);

/*
 Frees an answer; NULL does nothing. After it none of its texts may be used.

 Not while another call uses the answer.

 ```c
 lw_answer_free(answer);
 ```
 */
lw_status lw_answer_free(lw_answer *answer);

/*
 What answers the question, without its working. The texts live as long as the answer. A connection kit, `size-kit`, is
 answered by several side by side: it has an outcome, and all else is in its text and its JSON.

 Several threads may ask at once.

 ```c
 lw_brief brief = lw_brief_init();
 if (lw_answer_brief(answer, &brief, NULL) == LW_STATUS_OK && brief.outcome == LW_OUTCOME_HOLDS && brief.figure.data)
     puts(brief.figure.data);
 ```
 */
lw_status lw_answer_brief(const lw_answer *answer, lw_brief *brief_out, lw_error **error_out);

/*
 The answer with its working for a person to read, byte for byte as the command prints it with `--edition` and the code's
 identifier. It is made when it is first asked for, and lives as long as the answer.

 Several threads may ask at once.

 ```c
 lw_str text;
 lw_answer_text(answer, &text, NULL);
 ```
 */
lw_status lw_answer_text(const lw_answer *answer,
                         lw_str *text_out,
                         lw_error **error_out);

/*
 The answer with its working for a program, byte for byte as the command prints it with `--format json`, and `--edition`
 and the code's identifier. It is made when it is first asked for, and lives as long as the answer.

 Several threads may ask at once.

 ```c
 lw_str json;
 lw_answer_json(answer, &json, NULL);
 ```
 */
lw_status lw_answer_json(const lw_answer *answer, lw_str *json_out, lw_error **error_out);

/*
 Judges circuits, a row each, where they lie: the columns are not copied, and the answers are written to the caller's
 arrays. A row that cannot be judged says why in `reason` and never stops the others.

 Columns that are unknown, missing or of a wrong type give `LW_STATUS_COLUMNS`, all at once in the message. Where the
 progress function stops it, the status is `LW_STATUS_STOPPED` and every outcome is 0. `options` may be NULL. Several
 threads may judge at once, into answers of their own.

 ```c
 double load[2] = {16, 16.1}, other[2] = {0, 0}, device[2] = {20, 20};
 uint8_t codes[2] = {0, 0}, outcome[2];
 lw_str copper = {"copper", 6};
 lw_column material = lw_column_init();
 material.name = "material";
 material.name_len = 8;
 material.layout = LW_LAYOUT_U8;
 material.data = codes;
 material.rows = 2;
 material.words = &copper;
 material.word_count = 1;
 ```
 */
lw_status lw_batch_judge(const lw_code *code,
                         const lw_column *columns,
                         size_t column_count,
                         const lw_batch_answers *answers,
                         const lw_batch_options *options,
                         lw_error **error_out);

/*
 Why a row could not be judged, in words. The text lives as long as the library is loaded.

 Any thread may call it at any time.

 ```c
 lw_str words;
 lw_reason_text(reason[0], &words, NULL);
 ```
 */
lw_status lw_reason_text(uint16_t reason, lw_str *text_out, lw_error **error_out);

/*
 Opens an edition.

 `accepted` is the text of a TOML file of cells that you read in the book and accept, although their grade here is too
 low to rest on; NULL and 0 for none. What the book reads otherwise is an error of status `LW_STATUS_DOCUMENT`.

 On success `*code_out` owns the code: release it with `lw_code_free`. Any thread may call it at any time; the first
 call for an edition reads its tables and takes some milliseconds.

 ```c
 lw_code *code;
 lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, NULL);
 ```
 */
lw_status lw_code_new(lw_edition edition,
                      const char *accepted,
                      size_t accepted_len,
                      lw_code **code_out,
                      lw_error **error_out);

/*
 Frees a code; NULL does nothing. Reports that were made with it stay usable.

 Not while another call uses the code.

 ```c
 lw_code_free(code);
 ```
 */
lw_status lw_code_free(lw_code *code);

/*
 The identifier of a code, such as `nec-2023`. The text lives as long as the code.

 Several threads may ask at once.

 ```c
 lw_str id;
 lw_code_id(code, &id, NULL);
 ```
 */
lw_status lw_code_id(const lw_code *code, lw_str *id_out, lw_error **error_out);

/*
 The full title of a code. The text lives as long as the code.

 Several threads may ask at once.

 ```c
 lw_str title;
 lw_code_title(code, &title, NULL);
 ```
 */
lw_status lw_code_title(const lw_code *code, lw_str *title_out, lw_error **error_out);

/*
 Frees an error; NULL does nothing. After it nothing of the error may be used, its texts neither.

 Not while another call uses the error.

 ```c
 lw_error_free(error);
 ```
 */
lw_status lw_error_free(lw_error *error);

/*
 The status that came with an error.

 Several threads may ask at once.

 ```c
 lw_status status;
 lw_error_status(error, &status);
 ```
 */
lw_status lw_error_status(const lw_error *error, lw_status *status_out);

/*
 What is wrong and what to do, with the place in front; a line each where there are several problems. The text lives as
 long as the error.

 Several threads may ask at once.

 ```c
 lw_str message;
 if (lw_error_message(error, &message) == LW_STATUS_OK) fprintf(stderr, "%s\n", message.data);
 ```
 */
lw_status lw_error_message(const lw_error *error, lw_str *message_out);

/*
 The argument or the field that is meant, such as `question.ambient_c`. The text lives as long as the error.

 Several threads may ask at once.

 ```c
 lw_str place;
 lw_error_place(error, &place);
 ```
 */
lw_status lw_error_place(const lw_error *error, lw_str *place_out);

/*
 How many problems of a document the error lists; 0 where it is no document that is wrong.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_error_problem_count(error, &count);
 ```
 */
lw_status lw_error_problem_count(const lw_error *error, size_t *count_out);

/*
 One problem of a document, counted from 0, in the order of their places. Its texts live as long as the error.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_problem problem = lw_problem_init();
 if (lw_error_problem(error, 0, &problem) == LW_STATUS_OK)
     printf("line %u: %s\n", (unsigned)problem.line, problem.message.data);
 ```
 */
lw_status lw_error_problem(const lw_error *error, size_t index, lw_problem *problem_out);

/*
 A word for what limits an answer, such as `terminals`. The text lives as long as the library is loaded.

 Any thread may call it at any time.

 ```c
 lw_str word;
 lw_governor_word(answer.governed_by, &word, NULL);
 ```
 */
lw_status lw_governor_word(lw_governor governor, lw_str *word_out, lw_error **error_out);

/*
 Plans what can run on the source of a site.

 `code` may be NULL: then the edition judges that the description names. `options` may be NULL for those of
 `lw_plan_options_init`. Where the description states what cannot be, the status is `LW_STATUS_IMPOSSIBLE` and the error
 lists why, each with its place. A record that cannot be read is `LW_STATUS_DOCUMENT`. On success `*plan_out` owns the plan: release it with `lw_plan_free`. Several threads
 may ask at once, of one site.

 ```c
 lw_plan_options options = lw_plan_options_init();
 lw_plan *plan;
 options.wished_h = 8;
 lw_site_plan(site, NULL, &options, &plan, NULL);
 ```
 */
lw_status lw_site_plan(const lw_site *site,
                       const lw_code *code,
                       const lw_plan_options *options,
                       lw_plan **plan_out,
                       lw_error **error_out);

/*
 Frees a plan; NULL does nothing. After it none of its texts may be used.

 Not while another call uses the plan.

 ```c
 lw_plan_free(plan);
 ```
 */
lw_status lw_plan_free(lw_plan *plan);

/*
 Whether a plan exists and holds, the path with it.

 Several threads may ask at once.

 ```c
 lw_outcome outcome;
 lw_plan_outcome(plan, &outcome, NULL);
 ```
 */
lw_status lw_plan_outcome(const lw_plan *plan, lw_outcome *outcome_out, lw_error **error_out);

/*
 How many loads a plan speaks of.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_plan_load_count(plan, &count, NULL);
 ```
 */
lw_status lw_plan_load_count(const lw_plan *plan, size_t *count_out, lw_error **error_out);

/*
 One load of a plan, counted from 0: first those that are on, then those that are off. Its texts live as long as the
 plan.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_planned_load load = lw_planned_load_init();
 if (lw_plan_load(plan, 0, &load, NULL) == LW_STATUS_OK) puts(load.name.data);
 ```
 */
lw_status lw_plan_load(const lw_plan *plan, size_t index, lw_planned_load *load_out, lw_error **error_out);

/*
 The site as planned: what stays off does not run, and each load that is on has its leg. Check it to see the path.

 `*site_out` owns the site: release it with `lw_site_free`. Several threads may ask at once.

 ```c
 lw_site *planned;
 lw_plan_site(plan, &planned, NULL);
 ```
 */
lw_status lw_plan_site(const lw_plan *plan, lw_site **site_out, lw_error **error_out);

/*
 The plan for a person to read, byte for byte as `loadworthy plan` prints it. The text lives as long as the plan.

 Several threads may ask at once.

 ```c
 lw_str text;
 lw_plan_text(plan, &text, NULL);
 ```
 */
lw_status lw_plan_text(const lw_plan *plan, lw_str *text_out, lw_error **error_out);

/*
 The plan for a program, byte for byte as `loadworthy plan --format json` prints it. The text lives as long as the plan.

 Several threads may ask at once.

 ```c
 lw_str json;
 lw_plan_json(plan, &json, NULL);
 ```
 */
lw_status lw_plan_json(const lw_plan *plan, lw_str *json_out, lw_error **error_out);

/*
 How much current a conductor may carry in its conditions: NEC 310.15, 110.14(C), 240.4(D).

 `*answer_out` is written on every path; where a table does not tell, it says `LW_OUTCOME_CANNOT_TELL` and its currents
 are NAN. `working_out` may be NULL; otherwise `*working_out` owns the working: release it with `lw_working_free`.
 What cannot be read comes back as a status, and as an error in `*error_out`, which may be NULL.

 Nothing but the outputs is written: any number of threads may ask at once, of one code.

 ```c
 lw_ampacity_question question = lw_ampacity_question_init();
 lw_ampacity_answer answer = lw_ampacity_answer_init();
 question.material = LW_MATERIAL_COPPER;
 question.size = 8;
 question.insulation = LW_INSULATION_THHN;
 question.ambient_c = 40;
 question.terminals = LW_TERMINALS_75C;
 if (lw_ampacity(code, &question, &answer, NULL, NULL) == LW_STATUS_OK && answer.outcome == LW_OUTCOME_HOLDS)
     printf("%g A\n", answer.usable_a);
 ```
 */
lw_status lw_ampacity(const lw_code *code,
                      const lw_ampacity_question *question,
                      lw_ampacity_answer *answer_out,
                      lw_working **working_out,
                      lw_error **error_out);

/*
 The least volume of a box for what it holds: NEC 314.16. There are no terminal blocks in it, and no volume of plaster
 rings, extension rings or domed covers counts.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_counted conductors = lw_counted_init();
 lw_size_box_question question = lw_size_box_question_init();
 lw_size_box_answer answer = lw_size_box_answer_init();
 conductors.count = 4;
 conductors.size = 12;
 question.conductors = &conductors;
 question.conductor_count = 1;
 question.has_devices = LW_NO;
 question.has_grounding = LW_NO;
 question.has_clamps = LW_YES;
 question.has_fittings = LW_NO;
 lw_size_box(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_size_box(const lw_code *code,
                      const lw_size_box_question *question,
                      lw_size_box_answer *answer_out,
                      lw_working **working_out,
                      lw_error **error_out);

/*
 The smallest device, conductors, neutral and equipment grounding conductor of a circuit or a feeder that pass.

 The drop is reckoned by the direct-current resistance of Chapter 9 Table 8 at 75 °C, loads balanced. Outputs, errors
 and threads as with `lw_ampacity`.

 ```c
 lw_ampacity_question conductor = lw_ampacity_question_init();
 lw_size_circuit_question question = lw_size_circuit_question_init();
 lw_size_circuit_answer answer = lw_size_circuit_answer_init();
 conductor.material = LW_MATERIAL_COPPER;
 conductor.insulation = LW_INSULATION_THWN_2;
 conductor.terminals = LW_TERMINALS_75C;
 question.conductor = &conductor;
 question.conductors = LW_CONDUCTORS_TWO_LINES;
 question.continuous_a = 32;
 question.non_continuous_a = 0;
 question.supplies = LW_SUPPLIES_OTHER;
 lw_size_circuit(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_size_circuit(const lw_code *code,
                          const lw_size_circuit_question *question,
                          lw_size_circuit_answer *answer_out,
                          lw_working **working_out,
                          lw_error **error_out);

/*
 What a load that lasts three hours or more asks of device and conductor: NEC 210.19, 210.20, 215.2, 215.3.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_continuous_load_question question = lw_continuous_load_question_init();
 lw_continuous_load_answer answer = lw_continuous_load_answer_init();
 question.continuous_a = 16;
 question.non_continuous_a = 0;
 lw_continuous_load(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_continuous_load(const lw_code *code,
                             const lw_continuous_load_question *question,
                             lw_continuous_load_answer *answer_out,
                             lw_working **working_out,
                             lw_error **error_out);

/*
 How much current a flexible cord may carry: NEC 400.5.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_cord_question question = lw_cord_question_init();
 lw_cord_answer answer = lw_cord_answer_init();
 question.cord = LW_CORD_SOOW;
 question.size = 10;
 lw_cord_ampacity(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_cord_ampacity(const lw_code *code,
                           const lw_cord_question *question,
                           lw_cord_answer *answer_out,
                           lw_working **working_out,
                           lw_error **error_out);

/*
 The smallest cord set for an outlet that passes: NEC 400.5, 240.5, Table 400.4.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_size_cord_question question = lw_size_cord_question_init();
 lw_size_cord_answer answer = lw_size_cord_answer_init();
 question.outlet = LW_CONFIGURATION_L14_30;
 question.device_a = 30;
 question.current_a = 24;
 question.voltage_v = 240;
 question.usage = LW_USAGE_HARD;
 question.place = LW_PLACE_WET;
 lw_size_cord(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_size_cord(const lw_code *code,
                       const lw_size_cord_question *question,
                       lw_size_cord_answer *answer_out,
                       lw_working **working_out,
                       lw_error **error_out);

/*
 The largest standard device that protects a conductor: NEC 240.4(B), (C), (D), 240.6(A). It is neither a tap, a motor
 circuit nor a transformer, which 240.4(E) to (G) treat apart.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_largest_device_question question = lw_largest_device_question_init();
 lw_device_answer answer = lw_device_answer_init();
 question.material = LW_MATERIAL_COPPER;
 question.size = 6;
 question.ampacity_a = 55;
 question.kind = LW_DEVICE_KIND_BREAKER;
 question.supplies = LW_SUPPLIES_OTHER;
 lw_largest_device(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_largest_device(const lw_code *code,
                            const lw_largest_device_question *question,
                            lw_device_answer *answer_out,
                            lw_working **working_out,
                            lw_error **error_out);

/*
 The least standard device for a load: NEC 240.6(A), 210.20, 215.3.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_next_device_question question = lw_next_device_question_init();
 lw_device_answer answer = lw_device_answer_init();
 question.continuous_a = 16;
 question.non_continuous_a = 4;
 question.kind = LW_DEVICE_KIND_BREAKER;
 lw_next_device(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_next_device(const lw_code *code,
                         const lw_next_device_question *question,
                         lw_device_answer *answer_out,
                         lw_working **working_out,
                         lw_error **error_out);

/*
 The least equipment grounding conductor: NEC 250.122.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_equipment_grounding_question question = lw_equipment_grounding_question_init();
 lw_conductor_answer answer = lw_conductor_answer_init();
 question.device_a = 50;
 question.material = LW_MATERIAL_COPPER;
 lw_equipment_grounding(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_equipment_grounding(const lw_code *code,
                                 const lw_equipment_grounding_question *question,
                                 lw_conductor_answer *answer_out,
                                 lw_working **working_out,
                                 lw_error **error_out);

/*
 The least grounding electrode conductor: NEC 250.66. The electrode is none of a rod, a concrete encasement or a ring,
 whose own limits are lower.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_grounding_electrode_question question = lw_grounding_electrode_question_init();
 lw_conductor_answer answer = lw_conductor_answer_init();
 question.service_material = LW_MATERIAL_COPPER;
 question.service_size = LW_WIRE_SIZE_2_0_AWG;
 question.material = LW_MATERIAL_COPPER;
 lw_grounding_electrode(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_grounding_electrode(const lw_code *code,
                                 const lw_grounding_electrode_question *question,
                                 lw_conductor_answer *answer_out,
                                 lw_working **working_out,
                                 lw_error **error_out);

/*
 The least conductor of a dwelling's service or main power feeder: NEC 310.12. It holds for one dwelling, single-phase
 120/240 V or two phases of 208Y/120 V, its whole load on this service, where no correction or adjustment is needed.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_dwelling_service_question question = lw_dwelling_service_question_init();
 lw_conductor_answer answer = lw_conductor_answer_init();
 question.rating_a = 200;
 question.material = LW_MATERIAL_ALUMINUM;
 lw_dwelling_service(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_dwelling_service(const lw_code *code,
                              const lw_dwelling_service_question *question,
                              lw_conductor_answer *answer_out,
                              lw_working **working_out,
                              lw_error **error_out);

/*
 Whether a plug enters a receptacle, and the current that the pair may carry: ANSI/NEMA WD 6, IEC 60309-2.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_plug_question question = lw_plug_question_init();
 lw_plug_answer answer = lw_plug_answer_init();
 question.plug = LW_CONFIGURATION_5_15;
 question.receptacle = LW_CONFIGURATION_5_20;
 lw_plug_fit(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_plug_fit(const lw_code *code,
                      const lw_plug_question *question,
                      lw_plug_answer *answer_out,
                      lw_working **working_out,
                      lw_error **error_out);

/*
 The trade size of a raceway that takes some conductors: NEC Chapter 9 Tables 1, 4, 5, 5A and 8.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_occupant occupant = lw_occupant_init();
 lw_size_raceway_question question = lw_size_raceway_question_init();
 lw_size_raceway_answer answer = lw_size_raceway_answer_init();
 occupant.count = 3;
 occupant.size = 6;
 occupant.insulation = LW_INSULATION_THWN_2;
 question.kind = LW_RACEWAY_EMT;
 question.occupants = &occupant;
 question.occupant_count = 1;
 lw_size_raceway(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_size_raceway(const lw_code *code,
                          const lw_size_raceway_question *question,
                          lw_size_raceway_answer *answer_out,
                          lw_working **working_out,
                          lw_error **error_out);

/*
 How much voltage is lost along a path: NEC Chapter 9 Tables 8 and 9; the verdict against a limit is exact.

 Outputs, errors and threads as with `lw_ampacity`.

 ```c
 lw_segment segment = lw_segment_init();
 lw_voltage_drop_question question = lw_voltage_drop_question_init();
 lw_voltage_drop_answer answer = lw_voltage_drop_answer_init();
 segment.material = LW_MATERIAL_COPPER;
 segment.size = 12;
 segment.length_ft = 50;
 segment.current_a = 16;
 question.method = LW_METHOD_DC;
 question.circuit = LW_CIRCUIT_TWO_WIRE;
 question.supply_v = 120;
 question.segments = &segment;
 question.segment_count = 1;
 question.limit_percent = 3;
 lw_voltage_drop(code, &question, &answer, NULL, NULL);
 ```
 */
lw_status lw_voltage_drop(const lw_code *code,
                          const lw_voltage_drop_question *question,
                          lw_voltage_drop_answer *answer_out,
                          lw_working **working_out,
                          lw_error **error_out);

/*
 Applies every rule to a site.

 `code` may be NULL: then the edition judges that the description names, as with the command. `options` may be NULL for
 those of `lw_check_options_init`. On success `*report_out` owns the report: release it with `lw_report_free`; it needs
 neither the site nor the code any more. Several threads may ask at once, of one site.

 ```c
 lw_report *report;
 lw_site_check(site, NULL, NULL, &report, NULL);
 ```
 */
lw_status lw_site_check(const lw_site *site,
                        const lw_code *code,
                        const lw_check_options *options,
                        lw_report **report_out,
                        lw_error **error_out);

/*
 Frees a report; NULL does nothing. After it none of its texts may be used.

 Not while another call uses the report.

 ```c
 lw_report_free(report);
 ```
 */
lw_status lw_report_free(lw_report *report);

/*
 The outcome for the whole site: loadworthy, not loadworthy, or cannot tell.

 Several threads may ask at once.

 ```c
 lw_outcome outcome;
 lw_report_outcome(report, &outcome, NULL);
 if (outcome != LW_OUTCOME_HOLDS) puts("do not use it");
 ```
 */
lw_status lw_report_outcome(const lw_report *report, lw_outcome *outcome_out, lw_error **error_out);

/*
 How many findings a report has.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_report_finding_count(report, &count, NULL);
 ```
 */
lw_status lw_report_finding_count(const lw_report *report, size_t *count_out, lw_error **error_out);

/*
 One finding, counted from 0, in the order of the rules and of the components. Its texts live as long as the report.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_finding finding = lw_finding_init();
 if (lw_report_finding(report, 0, &finding, NULL) == LW_STATUS_OK)
     printf("%s: %s\n", finding.rule.data, finding.message.data);
 ```
 */
lw_status lw_report_finding(const lw_report *report, size_t index, lw_finding *finding_out, lw_error **error_out);

/*
 One step of the working of a finding, both counted from 0; there are none unless `lw_check_options` asked for them. Its
 texts live as long as the report.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_step step = lw_step_init();
 lw_report_step(report, 0, 0, &step, NULL);
 ```
 */
lw_status lw_report_step(const lw_report *report,
                         size_t finding,
                         size_t index,
                         lw_step *step_out,
                         lw_error **error_out);

/*
 How many facts are to be found out.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_report_question_count(report, &count, NULL);
 ```
 */
lw_status lw_report_question_count(const lw_report *report, size_t *count_out, lw_error **error_out);

/*
 One fact to find out, counted from 0. Its texts live as long as the report.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_open_question question = lw_open_question_init();
 if (lw_report_question(report, 0, &question, NULL) == LW_STATUS_OK) puts(question.question.data);
 ```
 */
lw_status lw_report_question(const lw_report *report,
                             size_t index,
                             lw_open_question *question_out,
                             lw_error **error_out);

/*
 The site with the smallest standard change made that mends a finding and breaks nothing else.

 `*mended_out` owns that site: release it with `lw_site_free`. It is NULL, and the status `LW_STATUS_OK`, where no size
 mends the finding, where it does not fail, and wherever something prohibited stands. The finding's `remedy` says it in
 words. Several threads may ask at once.

 ```c
 lw_site *mended;
 lw_report_mended(report, 0, &mended, NULL);
 ```
 */
lw_status lw_report_mended(const lw_report *report, size_t finding, lw_site **mended_out, lw_error **error_out);

/*
 The report for a person to read, byte for byte as `loadworthy check` prints it. The text lives as long as the report.

 Several threads may ask at once.

 ```c
 lw_str text;
 lw_report_text(report, &text, NULL);
 fwrite(text.data, 1, text.len, stdout);
 ```
 */
lw_status lw_report_text(const lw_report *report, lw_str *text_out, lw_error **error_out);

/*
 The report for a program, byte for byte as `loadworthy check --format json` prints it. The text lives as long as the
 report.

 Several threads may ask at once.

 ```c
 lw_str json;
 lw_report_json(report, &json, NULL);
 ```
 */
lw_status lw_report_json(const lw_report *report, lw_str *json_out, lw_error **error_out);

/*
 Finds the orders of switching of a site, each proved, or says why there are none.

 `code` may be NULL: then the edition judges that the description names. On success `*sequence_out` owns the sequence:
 release it with `lw_sequence_free`. Several threads may ask at once, of one site.

 ```c
 lw_sequence *sequence;
 lw_site_sequence(site, NULL, &sequence, NULL);
 ```
 */
lw_status lw_site_sequence(const lw_site *site, const lw_code *code, lw_sequence **sequence_out, lw_error **error_out);

/*
 Judges somebody's own order of switching, a TOML document of steps as `loadworthy sequence --verify` takes it.

 `name` is what messages call the document. Where it cannot be read, the status is `LW_STATUS_DOCUMENT`. `code` may be
 NULL: then the edition judges that the description names. On success `*sequence_out` owns the judgement: release it
 with `lw_sequence_free`; it has no checklist, and no steps to walk. Several threads may ask at once, of one site.

 ```c
 lw_sequence *judgement;
 lw_site_verify_steps(site, NULL, "steps.toml", 10, bytes, len, &judgement, NULL);
 ```
 */
lw_status lw_site_verify_steps(const lw_site *site,
                               const lw_code *code,
                               const char *name,
                               size_t name_len,
                               const char *document,
                               size_t document_len,
                               lw_sequence **sequence_out,
                               lw_error **error_out);

/*
 Frees a sequence; NULL does nothing. After it none of its texts may be used.

 Not while another call uses the sequence.

 ```c
 lw_sequence_free(sequence);
 ```
 */
lw_status lw_sequence_free(lw_sequence *sequence);

/*
 Whether every source has its proved orders, or the steps keep every invariant.

 Several threads may ask at once.

 ```c
 lw_outcome outcome;
 lw_sequence_outcome(sequence, &outcome, NULL);
 ```
 */
lw_status lw_sequence_outcome(const lw_sequence *sequence, lw_outcome *outcome_out, lw_error **error_out);

/*
 How many steps the orders have together.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_sequence_step_count(sequence, &count, NULL);
 ```
 */
lw_status lw_sequence_step_count(const lw_sequence *sequence, size_t *count_out, lw_error **error_out);

/*
 One step, counted from 0 through all orders. Its texts live as long as the sequence.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_switching_step step = lw_switching_step_init();
 if (lw_sequence_step(sequence, 0, &step, NULL) == LW_STATUS_OK)
     printf("%u. %s\n", (unsigned)step.number, step.operation.data);
 ```
 */
lw_status lw_sequence_step(const lw_sequence *sequence,
                           size_t index,
                           lw_switching_step *step_out,
                           lw_error **error_out);

/*
 The orders, or the judgement, for a person to read, byte for byte as `loadworthy sequence` prints them. The text lives
 as long as the sequence.

 Several threads may ask at once.

 ```c
 lw_str text;
 lw_sequence_text(sequence, &text, NULL);
 ```
 */
lw_status lw_sequence_text(const lw_sequence *sequence, lw_str *text_out, lw_error **error_out);

/*
 The same for a program, byte for byte as `loadworthy sequence --format json` prints it. The text lives as long as the
 sequence.

 Several threads may ask at once.

 ```c
 lw_str json;
 lw_sequence_json(sequence, &json, NULL);
 ```
 */
lw_status lw_sequence_json(const lw_sequence *sequence, lw_str *json_out, lw_error **error_out);

/*
 A page to print, byte for byte as `loadworthy sequence --format checklist` prints it; NULL as its `data` for a
 judgement. The text lives as long as the sequence.

 Several threads may ask at once.

 ```c
 lw_str page;
 lw_sequence_checklist(sequence, &page, NULL);
 ```
 */
lw_status lw_sequence_checklist(const lw_sequence *sequence, lw_str *checklist_out, lw_error **error_out);

/*
 Reads a site description, TOML or JSON.

 `name` is what messages and reports call the document, UTF-8, such as a file name; its ending, or the first character
 of the document, says which of the two it is. The document is at most 4 MiB. Where it cannot be read, the status is
 `LW_STATUS_DOCUMENT` and the error lists every problem with its place. Neither text is used after the call.

 On success `*site_out` owns the site: release it with `lw_site_free`. Any thread may call it at any time.

 ```c
 lw_site *site;
 lw_error *error;
 if (lw_site_parse("site.toml", 9, bytes, len, &site, &error) != LW_STATUS_OK) {
     lw_str message;
     lw_error_message(error, &message);
     fprintf(stderr, "%s\n", message.data);
     lw_error_free(error);
 }
 ```
 */
lw_status lw_site_parse(const char *name,
                        size_t name_len,
                        const char *document,
                        size_t document_len,
                        lw_site **site_out,
                        lw_error **error_out);

/*
 Frees a site; NULL does nothing. Reports, plans and orders that were made of it stay usable.

 Not while another call uses the site.

 ```c
 lw_site_free(site);
 ```
 */
lw_status lw_site_free(lw_site *site);

/*
 The same site with one field set, or removed where the value is empty: what if? The path is the name of a component (or
 `site`), a dot, and the field, as in `generator cord.length`. The site itself stays as it is.

 On success `*changed_out` owns the changed site: release it with `lw_site_free`. Several threads may ask at once.

 ```c
 lw_site *longer;
 lw_site_with_field(site, "generator cord.length", 21, "100 ft", 6, &longer, NULL);
 ```
 */
lw_status lw_site_with_field(const lw_site *site,
                             const char *path,
                             size_t path_len,
                             const char *value,
                             size_t value_len,
                             lw_site **changed_out,
                             lw_error **error_out);

/*
 The same site with the components of a further document, each in place of the one with its name: what if? The site
 itself stays as it is.

 On success `*changed_out` owns the changed site: release it with `lw_site_free`. Several threads may ask at once.

 ```c
 lw_site *with_pump;
 lw_site_with_components(site, "pump.toml", 9, bytes, len, &with_pump, NULL);
 ```
 */
lw_status lw_site_with_components(const lw_site *site,
                                  const char *name,
                                  size_t name_len,
                                  const char *document,
                                  size_t document_len,
                                  lw_site **changed_out,
                                  lw_error **error_out);

/*
 The version of the library. Each pointer may be NULL where that part is not wanted.

 Any thread may call it at any time.

 ```c
 uint32_t major, minor;
 lw_version(&major, &minor, NULL, NULL);
 ```
 */
lw_status lw_version(uint32_t *major_out, uint32_t *minor_out, uint32_t *patch_out, lw_error **error_out);

/*
 Frees a working; NULL does nothing.

 Not while another call uses the working.

 ```c
 lw_working_free(working);
 ```
 */
lw_status lw_working_free(lw_working *working);

/*
 How many steps a working has.

 Several threads may ask at once.

 ```c
 size_t count;
 lw_working_step_count(working, &count, NULL);
 ```
 */
lw_status lw_working_step_count(const lw_working *working, size_t *count_out, lw_error **error_out);

/*
 One step of a working, counted from 0. Its texts live as long as the working.

 `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.

 ```c
 lw_step step = lw_step_init();
 if (lw_working_step(working, 0, &step, NULL) == LW_STATUS_OK)
     printf("%s: %s\n", step.what.data, step.result.data);
 ```
 */
lw_status lw_working_step(const lw_working *working, size_t index, lw_step *step_out, lw_error **error_out);

/*
 Why the answer cannot be told or is no, in words; NULL as its `data` where there is an answer. The text lives as long
 as the working.

 Several threads may ask at once.

 ```c
 lw_str gap;
 lw_working_gap(working, &gap, NULL);
 if (gap.data) printf("%s\n", gap.data);
 ```
 */
lw_status lw_working_gap(const lw_working *working, lw_str *gap_out, lw_error **error_out);

/*
 The steps for a person to read, a line each. The text lives as long as the working.

 Several threads may ask at once.

 ```c
 lw_str text;
 lw_working_text(working, &text, NULL);
 fputs(text.data, stdout);
 ```
 */
lw_status lw_working_text(const lw_working *working, lw_str *text_out, lw_error **error_out);

/*
 The steps for a program: a JSON list of objects `{ what, result, citation, cell, grade }`, the last three only where
 there is one. The text lives as long as the working.

 Several threads may ask at once.

 ```c
 lw_str json;
 lw_working_json(working, &json, NULL);
 ```
 */
lw_status lw_working_json(const lw_working *working, lw_str *json_out, lw_error **error_out);

/* Structs that state nothing: numbers are NAN, all else is zero. Use no struct without it. */

static inline lw_batch_options lw_batch_options_init(void) {
    lw_batch_options it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_brief lw_brief_init(void) {
    lw_brief it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_column lw_column_init(void) {
    lw_column it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_batch_answers lw_batch_answers_init(void) {
    lw_batch_answers it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_problem lw_problem_init(void) {
    lw_problem it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_plan_options lw_plan_options_init(void) {
    lw_plan_options it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.wished_h = NAN;
    it.record_share_percent = NAN;
    return it;
}

static inline lw_planned_load lw_planned_load_init(void) {
    lw_planned_load it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.current_a = NAN;
    return it;
}

static inline lw_ampacity_question lw_ampacity_question_init(void) {
    lw_ampacity_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.ambient_c = NAN;
    it.ambient_f = NAN;
    it.rooftop_clearance_in = NAN;
    it.circuit_rating_a = NAN;
    return it;
}

static inline lw_ampacity_answer lw_ampacity_answer_init(void) {
    lw_ampacity_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.usable_a = NAN;
    it.corrected_a = NAN;
    it.terminal_a = NAN;
    it.cable_a = NAN;
    it.small_conductor_device_a = NAN;
    return it;
}

static inline lw_counted lw_counted_init(void) {
    lw_counted it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_size_box_question lw_size_box_question_init(void) {
    lw_size_box_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_size_box_answer lw_size_box_answer_init(void) {
    lw_size_box_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.volume_in3 = NAN;
    return it;
}

static inline lw_size_circuit_question lw_size_circuit_question_init(void) {
    lw_size_circuit_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.continuous_a = NAN;
    it.non_continuous_a = NAN;
    it.neutral_a = NAN;
    it.voltage_v = NAN;
    it.length_ft = NAN;
    it.length_m = NAN;
    it.drop_limit_percent = NAN;
    it.least_device_a = NAN;
    return it;
}

static inline lw_size_circuit_answer lw_size_circuit_answer_init(void) {
    lw_size_circuit_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.device_a = NAN;
    it.ampacity_of_one_a = NAN;
    it.drop_v = NAN;
    it.drop_percent = NAN;
    return it;
}

static inline lw_continuous_load_question lw_continuous_load_question_init(void) {
    lw_continuous_load_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.continuous_a = NAN;
    it.non_continuous_a = NAN;
    return it;
}

static inline lw_continuous_load_answer lw_continuous_load_answer_init(void) {
    lw_continuous_load_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.device_a = NAN;
    it.conductor_before_factors_a = NAN;
    it.conductor_after_factors_a = NAN;
    return it;
}

static inline lw_cord_question lw_cord_question_init(void) {
    lw_cord_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.ambient_c = NAN;
    it.ambient_f = NAN;
    it.marked_c = NAN;
    it.marked_f = NAN;
    return it;
}

static inline lw_cord_answer lw_cord_answer_init(void) {
    lw_cord_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.ampacity_a = NAN;
    return it;
}

static inline lw_size_cord_question lw_size_cord_question_init(void) {
    lw_size_cord_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.device_a = NAN;
    it.current_a = NAN;
    it.voltage_v = NAN;
    it.length_ft = NAN;
    it.length_m = NAN;
    it.drop_limit_percent = NAN;
    it.ambient_c = NAN;
    it.ambient_f = NAN;
    it.marked_c = NAN;
    it.marked_f = NAN;
    return it;
}

static inline lw_size_cord_answer lw_size_cord_answer_init(void) {
    lw_size_cord_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.ampacity_a = NAN;
    it.longest_ft = NAN;
    return it;
}

static inline lw_largest_device_question lw_largest_device_question_init(void) {
    lw_largest_device_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.ampacity_a = NAN;
    return it;
}

static inline lw_device_answer lw_device_answer_init(void) {
    lw_device_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.rating_a = NAN;
    return it;
}

static inline lw_next_device_question lw_next_device_question_init(void) {
    lw_next_device_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.required_a = NAN;
    it.continuous_a = NAN;
    it.non_continuous_a = NAN;
    return it;
}

static inline lw_equipment_grounding_question lw_equipment_grounding_question_init(void) {
    lw_equipment_grounding_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.device_a = NAN;
    return it;
}

static inline lw_conductor_answer lw_conductor_answer_init(void) {
    lw_conductor_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_grounding_electrode_question lw_grounding_electrode_question_init(void) {
    lw_grounding_electrode_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_dwelling_service_question lw_dwelling_service_question_init(void) {
    lw_dwelling_service_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.rating_a = NAN;
    return it;
}

static inline lw_plug_question lw_plug_question_init(void) {
    lw_plug_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.supply_a = NAN;
    return it;
}

static inline lw_plug_answer lw_plug_answer_init(void) {
    lw_plug_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.governing_a = NAN;
    return it;
}

static inline lw_occupant lw_occupant_init(void) {
    lw_occupant it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_size_raceway_question lw_size_raceway_question_init(void) {
    lw_size_raceway_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_size_raceway_answer lw_size_raceway_answer_init(void) {
    lw_size_raceway_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.fill_limit_percent = NAN;
    return it;
}

static inline lw_segment lw_segment_init(void) {
    lw_segment it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.resistance_ohm_per_kft = NAN;
    it.reactance_ohm_per_kft = NAN;
    it.neutral_resistance_ohm_per_kft = NAN;
    it.neutral_reactance_ohm_per_kft = NAN;
    it.length_ft = NAN;
    it.length_m = NAN;
    it.current_a = NAN;
    it.other_leg_a = NAN;
    return it;
}

static inline lw_voltage_drop_question lw_voltage_drop_question_init(void) {
    lw_voltage_drop_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.supply_v = NAN;
    it.conductor_temperature_c = NAN;
    it.conductor_temperature_f = NAN;
    it.k = NAN;
    it.power_factor = NAN;
    it.limit_percent = NAN;
    return it;
}

static inline lw_voltage_drop_answer lw_voltage_drop_answer_init(void) {
    lw_voltage_drop_answer it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    it.drop_v = NAN;
    it.drop_percent = NAN;
    it.at_load_v = NAN;
    return it;
}

static inline lw_check_options lw_check_options_init(void) {
    lw_check_options it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_finding lw_finding_init(void) {
    lw_finding it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_step lw_step_init(void) {
    lw_step it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_open_question lw_open_question_init(void) {
    lw_open_question it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

static inline lw_switching_step lw_switching_step_init(void) {
    lw_switching_step it;
    memset(&it, 0, sizeof it);
    it.struct_size = sizeof it;
    return it;
}

/* A text that ends with a NUL, such as a literal, as the library takes it; NULL is none. It owns nothing. */
static inline lw_str lw_text(const char *text) {
    lw_str it;
    it.data = text;
    it.len = text ? strlen(text) : 0;
    return it;
}

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* LOADWORTHY_H */
