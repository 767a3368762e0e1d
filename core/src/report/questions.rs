//! The questions that facts which are not stated become: each as a person asks it.

/// A fact that is asked for as anything but `what is ...`, with its question; sorted.
const ASKED: &[(&str, &str)] = &[
    ("how it passes from one supply to the other", "how does it pass from one supply to the other"),
    ("how its conductors are installed", "how are its conductors installed"),
    ("how its normal supply is kept off", "how is its normal supply kept off"),
    ("how long it is wanted to run", "how long is it wanted to run"),
    ("how long its fuel lasts", "how long does its fuel last"),
    (
        "how many conductors carry current in its raceway, cable or bundle",
        "how many conductors carry current in its raceway, cable or bundle",
    ),
    ("how many of its conductors carry current", "how many of its conductors carry current"),
    ("how many poles its overcurrent device has", "how many poles does its overcurrent device have"),
    (
        "how many poles the device has that feeds it from the source",
        "how many poles does the device have that feeds it from the source",
    ),
    ("the poles of its overcurrent device", "how many poles does its overcurrent device have"),
    ("what connects its system to earth", "what connects its system to earth"),
    ("what disconnects it, and whether that locks open", "what disconnects it, and does that lock open"),
    (
        "what holds the breaker in place that feeds it from the source",
        "what holds the breaker in place that feeds it from the source",
    ),
    (
        "what is marked at the terminals of the breaker that feeds it from the source",
        "what is marked at the terminals of the breaker that feeds it from the source",
    ),
    ("what is plugged into the outlet ahead of it", "what is plugged into the outlet ahead of it"),
    ("what it feeds", "what does it feed"),
    ("what it gives for moments while motors start", "what does it give for moments while motors start"),
    ("what it is fastened to", "what is it fastened to"),
    ("what its marking says of its neutral", "what does its marking say of its neutral"),
    ("what kind of building it is", "what kind of building is it"),
    ("what kind of load it is", "what kind of load is it"),
    ("what protects it from overload", "what protects it from overload"),
    ("what supplies it normally, and whether a utility does", "what supplies it normally, and does a utility"),
    ("what the connector of its cord is pushed onto", "what is the connector of its cord pushed onto"),
    (
        "what the equipment that takes its power into the building is listed for",
        "what is the equipment that takes its power into the building listed for",
    ),
    (
        "what the sign beside it says of the source's neutral",
        "what does the sign beside it say of the source's neutral",
    ),
    ("when it opens the neutral", "when does it open the neutral"),
    ("where it stands", "where does it stand"),
    (
        "whether a cover closes over its blades while nothing is plugged in",
        "does a cover close over its blades while nothing is plugged in",
    ),
    ("whether a fuel engine drives it", "does a fuel engine drive it"),
    ("whether a ground-fault circuit interrupter protects it", "does a ground-fault circuit interrupter protect it"),
    (
        "whether a labeled emergency stop for it is outside the dwelling",
        "is a labeled emergency stop for it outside the dwelling",
    ),
    (
        "whether a link bonds its neutral to earth in island mode only",
        "does a link bond its neutral to earth in island mode only",
    ),
    ("whether a listed disconnect is interlocked with it", "is a listed disconnect interlocked with it"),
    ("whether a part of it stays coiled or on its reel", "does a part of it stay coiled or on its reel"),
    (
        "whether a qualified person joins and parts its single-pole connectors",
        "does a qualified person join and part its single-pole connectors",
    ),
    (
        "whether a residual-current device of 30 mA or less protects its outlets",
        "does a residual-current device of 30 mA or less protect its outlets",
    ),
    (
        "whether a sign at the service equipment tells its kind and its place",
        "does a sign at the service equipment tell its kind and its place",
    ),
    (
        "whether a sign warns that opening a ground connection at the service opens its grounding path",
        "does a sign warn that opening a ground connection at the service opens its grounding path",
    ),
    (
        "whether a source is meant to run joined with the utility through it",
        "is a source meant to run joined with the utility through it",
    ),
    ("whether a utility serves the site", "does a utility serve the site"),
    ("whether a utility service is connected", "is a utility service connected"),
    (
        "whether a warning stands at each switch whose load terminals may be live while it is open",
        "does a warning stand at each switch whose load terminals may be live while it is open",
    ),
    ("whether another inlet, source or supply can feed it", "can another inlet, source or supply feed it"),
    ("whether any part of it lies outdoors", "does any part of it lie outdoors"),
    (
        "whether any position of its handles joins two of its supplies",
        "does any position of its handles join two of its supplies",
    ),
    (
        "whether anybody depends on medical equipment that needs electricity",
        "does anybody depend on medical equipment that needs electricity",
    ),
    ("whether anybody is to work on the wiring", "is anybody to work on the wiring"),
    (
        "whether connectors are made and parted only while no current flows",
        "are connectors made and parted only while no current flows",
    ),
    (
        "whether equipment keeps each of its other supplies apart from every other supply",
        "does equipment keep each of its other supplies apart from every other supply",
    ),
    (
        "whether every source that can reach the work is locked and tagged",
        "is every source that can reach the work locked and tagged",
    ),
    ("whether fuel is added only with the engine cool", "is fuel added only with the engine cool"),
    ("whether fuel is added only with the engine stopped", "is fuel added only with the engine stopped"),
    (
        "whether fuel is stored away from the engine and from where people live",
        "is fuel stored away from the engine and from where people live",
    ),
    (
        "whether it brings both supplies into step before they meet",
        "does it bring both supplies into step before they meet",
    ),
    ("whether it charges the source that feeds it", "does it charge the source that feeds it"),
    ("whether it is a listed cord set", "is it a listed cord set"),
    (
        "whether it is dead while an outlet of both voltages is in use",
        "is it dead while an outlet of both voltages is in use",
    ),
    (
        "whether it is kept from being driven off while it is connected",
        "is it kept from being driven off while it is connected",
    ),
    ("whether it is listed", "is it listed"),
    ("whether it is listed for this use", "is it listed for this use"),
    (
        "whether it is listed, agreed and installed for running in parallel",
        "is it listed, agreed and installed for running in parallel",
    ),
    ("whether it is made to start and run with nobody there", "is it made to start and run with nobody there"),
    ("whether it is marked as fed by a single 120 V supply", "is it marked as fed by a single 120 V supply"),
    ("whether it is mounted on a vehicle or a trailer", "is it mounted on a vehicle or a trailer"),
    ("whether it is outdoors", "is it outdoors"),
    ("whether it is portable", "is it portable"),
    ("whether it is protected from pinching", "is it protected from pinching"),
    ("whether it is there only while the utility is out", "is it there only while the utility is out"),
    ("whether it is to run on the source", "is it to run on the source"),
    ("whether it is used at a workplace", "is it used at a workplace"),
    ("whether it leaves one supply before it takes the other", "does it leave one supply before it takes the other"),
    ("whether it lies outdoors or in a wet place", "does it lie outdoors or in a wet place"),
    ("whether it runs for three hours or more", "does it run for three hours or more"),
    ("whether it shares its neutral with another leg", "does it share its neutral with another leg"),
    (
        "whether it stands dry on level ground, under an open canopy where it rains",
        "does it stand dry on level ground, under an open canopy where it rains",
    ),
    ("whether it supplies more than one receptacle", "does it supply more than one receptacle"),
    ("whether it switches the neutral", "does it switch the neutral"),
    (
        "whether it was looked over and found undamaged, under no rug and under no tension",
        "was it looked over and found undamaged, under no rug and under no tension",
    ),
    ("whether its building is a dwelling of one or two families", "is its building a dwelling of one or two families"),
    ("whether its cable lies in thermal insulation", "does its cable lie in thermal insulation"),
    (
        "whether its connections outdoors are off the ground and in covers",
        "are its connections outdoors off the ground and in covers",
    ),
    ("whether its cord is relieved of strain", "is its cord relieved of strain"),
    ("whether its cover keeps water out while a plug is in it", "does its cover keep water out while a plug is in it"),
    (
        "whether its engine can be stopped from outside its room or enclosure",
        "can its engine be stopped from outside its room or enclosure",
    ),
    ("whether its exhaust points away from every building", "does its exhaust point away from every building"),
    (
        "whether its frame, that of its vehicle, and the grounding contacts of its receptacles are bonded",
        "are its frame, that of its vehicle, and the grounding contacts of its receptacles bonded",
    ),
    (
        "whether its maker's instructions and its listing let it feed premises wiring",
        "do its maker's instructions and its listing let it feed premises wiring",
    ),
    ("whether its neutral is bonded to ground in it", "is its neutral bonded to ground in it"),
    ("whether its neutral is bonded to its frame", "is its neutral bonded to its frame"),
    (
        "whether its outlets are listed for feeding equipment outside it",
        "are its outlets listed for feeding equipment outside it",
    ),
    (
        "whether its stopping means keep its engine from starting until it is reset by hand",
        "do its stopping means keep its engine from starting until it is reset by hand",
    ),
    (
        "whether its terminals end in single-pole connectors, and what keeps their order",
        "do its terminals end in single-pole connectors, and what keeps their order",
    ),
    (
        "whether loads are added one at a time, the largest starting demand first",
        "are loads added one at a time, the largest starting demand first",
    ),
    (
        "whether on return loads go off first, and the source cools and stops before its cords are parted",
        "do loads go off first on return, and does the source cool and stop before its cords are parted",
    ),
    (
        "whether on return the way from the source is opened before the way from the utility is closed",
        "is the way from the source opened on return before the way from the utility is closed",
    ),
    ("whether one handle moves all its poles", "does one handle move all its poles"),
    (
        "whether one line of the source is joined to both of its legs",
        "is one line of the source joined to both of its legs",
    ),
    ("whether only qualified persons service it", "do only qualified persons service it"),
    (
        "whether sensitive electronics go on last and off first, behind surge protection",
        "do sensitive electronics go on last and off first, behind surge protection",
    ),
    ("whether somebody is there while a portable source runs", "is somebody there while a portable source runs"),
    (
        "whether tested carbon monoxide alarms with batteries are on each level and outside each sleeping area",
        "are tested carbon monoxide alarms with batteries on each level and outside each sleeping area",
    ),
    (
        "whether the branch circuits are off when a source is joined or removed",
        "are the branch circuits off when a source is joined or removed",
    ),
    (
        "whether the breaker of the source sits at the end of the busbar opposite the main",
        "does the breaker of the source sit at the end of the busbar opposite the main",
    ),
    ("whether the breakers or the cover carry it", "do the breakers or the cover carry it"),
    (
        "whether the cover that carries it stays on whenever its breakers are worked",
        "does the cover that carries it stay on whenever its breakers are worked",
    ),
    (
        "whether the exception for temporary sources under qualified persons holds",
        "does the exception for temporary sources under qualified persons hold",
    ),
    (
        "whether the grounding conductor is whole from its frame to all that it feeds",
        "is the grounding conductor whole from its frame to all that it feeds",
    ),
    (
        "whether the neutral is bonded to ground at service equipment that is not one of the panels",
        "is the neutral bonded to ground at service equipment that is not one of the panels",
    ),
    (
        "whether the openings that exhaust could reach are closed while an engine runs",
        "are the openings that exhaust could reach closed while an engine runs",
    ),
    (
        "whether the panel's own listing or marking covers its interlock",
        "does the panel's own listing or marking cover its interlock",
    ),
    ("whether the place of its conductors is dry, damp or wet", "is the place of its conductors dry, damp or wet"),
    ("whether the source's connection to it is temporary", "is the source's connection to it temporary"),
    (
        "whether the steps for this site are posted at the transfer equipment",
        "are the steps for this site posted at the transfer equipment",
    ),
    ("whether the supply that it replaces is TN, TT or IT", "is the supply that it replaces TN, TT or IT"),
    ("whether the transfer equipment switches its neutral", "does the transfer equipment switch its neutral"),
    ("whether the utility agreed to it", "did the utility agree to it"),
    ("whether the utility was told of it, or need not be", "was the utility told of it, or need it not be"),
    (
        "whether the wall or the enclosure beside it is proved to withstand fire",
        "is the wall or the enclosure beside it proved to withstand fire",
    ),
    (
        "whether the way from the utility is opened, and seen to be open, before a source is connected",
        "is the way from the utility opened, and seen to be open, before a source is connected",
    ),
    (
        "whether the work is tested dead at its point, with a meter of contact proved before and after",
        "is the work tested dead at its point, with a meter of contact proved before and after",
    ),
    (
        "whether there is a written plan for medical equipment that does not rest on the source alone",
        "is there a written plan for medical equipment that does not rest on the source alone",
    ),
    ("which bonds its neutral joins", "which bonds does its neutral join"),
    (
        "which of the utility and the panel before it supplies it normally",
        "which of the utility and the panel before it supplies it normally",
    ),
    ("which way it takes", "which way does it take"),
    ("which way its charging equipment lets power flow", "which way does its charging equipment let power flow"),
];

/// The question for a fact, without its mark: `does it switch the neutral` for `whether it switches the neutral`, and
/// `what is its wire size` for `its wire size`.
pub(super) fn question(fact: &str) -> String {
    // A comma at the end of a fact parts it from what follows it in a statement.
    let fact = fact.trim_end_matches(',');
    let found = ASKED.binary_search_by(|(asked, _)| (*asked).cmp(fact)).ok().and_then(|place| ASKED.get(place));
    match found {
        Some((_, question)) => (*question).to_owned(),
        None => format!("what is {fact}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_questions_are_sorted_and_begin_as_questions_do() {
        const BEGIN: [&str; 15] = [
            "are ", "can ", "did ", "do ", "does ", "how ", "is ", "need ", "was ", "what ", "when ", "where ",
            "which ", "who ", "will ",
        ];
        assert!(ASKED.is_sorted_by(|(one, _), (other, _)| one < other));
        for (fact, question) in ASKED {
            assert!(BEGIN.iter().any(|begin| question.starts_with(begin)), "{question}");
            assert!(!question.contains("whether") && !question.ends_with(['?', ',', '.']), "{fact}: {question}");
        }
    }

    /// Words that begin like a fact, and are none: what a table does not tell, and notes of a rule.
    const NO_FACTS: [&str; 9] = [
        "how its engine must be stopped",
        "how much a busbar may be fed",
        "what source conductors must bear",
        "what the cord is made for",
        "whether its insulation suits the place",
        "whether that conductor is permitted",
        "whether this section or 702.4 rules a battery system that also runs with the utility is disputed: there only 702.4 is judged",
        "which generators are small",
        "which is",
    ];

    /// Reads the sources of the rules and of the networks for texts that begin like an indirect question.
    #[test]
    fn every_fact_that_is_an_indirect_question_has_its_direct_one() {
        let source = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let mut facts = Vec::new();
        for (room, begin) in [("rules", ""), ("switching", "site")] {
            for file in std::fs::read_dir(source.join(room)).unwrap().map(Result::unwrap) {
                if !file.file_name().to_string_lossy().starts_with(begin) {
                    continue;
                }
                let text = std::fs::read_to_string(file.path()).unwrap();
                let code: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
                for literal in code.join("\n").split('"').skip(1).step_by(2) {
                    let begins = ["how ", "what ", "when ", "where ", "whether ", "which ", "who "];
                    if begins.iter().any(|word| literal.starts_with(word)) && !literal.contains(['{', '`', '\n']) {
                        facts.push(literal.trim_end_matches(',').to_owned());
                    }
                }
            }
        }
        assert!(facts.len() > 100);
        for fact in facts {
            let known = ASKED.iter().any(|(asked, _)| *asked == fact) || NO_FACTS.contains(&fact.as_str());
            assert!(known, "`{fact}` has no question in {}", file!());
        }
    }

    #[test]
    fn a_fact_becomes_a_question() {
        assert_eq!(question("its wire size"), "what is its wire size");
        assert_eq!(
            question("its current, or its power and power factor,"),
            "what is its current, or its power and power factor"
        );
        assert_eq!(question("what its marking says of its neutral,"), "what does its marking say of its neutral");
        assert_eq!(question("whether it switches the neutral"), "does it switch the neutral");
    }
}
