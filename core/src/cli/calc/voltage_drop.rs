//! `calc voltage-drop`: how much voltage is lost along a path, by a named method.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use super::segment::{Circuit, Stretch};
use crate::calc::voltage_drop::{Method, Segment, VoltageDrop, voltage_drop};
use crate::calc::{Step, Working};
use crate::code::{Code, DropAdvice};
use crate::quantity::{Celsius, PowerFactor, Volts};
use crate::trade::{Conduit, nearest};

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The method: dc (resistance, corrected for temperature), constant (K over circular mils), impedance (effective, at
    /// a power factor), phasor (exact)
    #[arg(long)]
    method: Option<String>,
    /// The circuit: two-wire, three-wire (two legs and a neutral; the drop of a leg), three-phase (between lines)
    #[arg(long)]
    circuit: Option<String>,
    /// The voltage that is sent: "120 V"; on three wires that of a leg, on three phases that between lines
    #[arg(long)]
    supply: Option<String>,
    /// A stretch of the path, repeated for more: "12 AWG copper, 50 ft, 16 A"
    #[arg(long)]
    segment: Vec<String>,
    #[command(flatten)]
    stretch: Stretch,
    /// The temperature of the conductors, for method dc: "75 °C"
    #[arg(long, allow_hyphen_values = true)]
    conductor_temperature: Option<String>,
    /// The constant, for method constant, in ohm circular mils per foot: 12.9
    #[arg(long)]
    k: Option<String>,
    /// The material of the conduit, for methods impedance and phasor: PVC, aluminum, steel
    #[arg(long)]
    conduit: Option<String>,
    /// The power factor, for methods impedance and phasor: 0.85
    #[arg(long)]
    power_factor: Option<String>,
}

named!(Question: method, circuit, supply, segment, conductor_temperature, k, conduit, power_factor; stretch);

const METHODS: [&str; 4] = ["dc", "constant", "impedance", "phasor"];
const CIRCUITS: [(&str, Circuit); 3] =
    [("two-wire", Circuit::TwoWire), ("three-wire", Circuit::ThreeWire), ("three-phase", Circuit::ThreePhase)];

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("voltage-drop", code, detail);
        let supply: Volts = required("supply", self.supply.as_ref(), "120 V")?;
        if supply == Volts::MIN {
            return Err(Problem::at("supply", "nothing is sent; write a voltage above 0 V"));
        }
        let stretches = self.stretches()?;
        let method = self.method(&stretches, &mut answer)?;
        let circuit = self.circuit()?;
        let reactance = matches!(method, Method::EffectiveImpedance { .. } | Method::ExactPhasor { .. });
        let mut path: Vec<Segment> = Vec::new();
        for stretch in &stretches {
            path.push(stretch.segment(circuit, reactance, &mut answer)?);
        }
        answer.subject(format_args!("voltage drop of {supply} by {}, to the load at the end", method.name()));
        let found = voltage_drop(code, supply, &path, method, &mut answer.working);
        if let Some(found) = answer.settle(found) {
            report(code, &found, method, &mut answer);
        }
        Ok(answer)
    }

    fn stretches(&self) -> Result<Vec<Stretch>, Problem> {
        if self.segment.is_empty() {
            return Ok(vec![self.stretch.clone()]);
        }
        if !self.stretch.is_empty() {
            return Err(Problem::at("segment", "names conductors, length and current; give either it or those"));
        }
        let numbered = (1..).zip(&self.segment);
        let read = |(number, text): (usize, &String)| {
            Stretch::from_text(text).map_err(|problem| Problem::at("segment", format!("{number}: {problem}")))
        };
        numbered.map(read).collect()
    }

    fn circuit(&self) -> Result<Circuit, Problem> {
        let text = required::<String>("circuit", self.circuit.as_ref(), "two-wire")?;
        let found = CIRCUITS.iter().find(|(name, _)| *name == text.trim());
        found
            .map(|(_, circuit)| *circuit)
            .ok_or_else(|| Problem::at("circuit", word(&text, "circuit", CIRCUITS.map(|(name, _)| name))))
    }

    fn method(&self, stretches: &[Stretch], answer: &mut Answer) -> Result<Method, Problem> {
        let text = required::<String>("method", self.method.as_ref(), "dc")?;
        match text.trim() {
            "dc" => Ok(Method::DirectCurrent { temperature: self.temperature(stretches, answer)? }),
            "constant" => Ok(Method::Constant { k: required("k", self.k.as_ref(), "12.9")? }),
            "impedance" => {
                let (conduit, power_factor) = self.conduit_and_power_factor(stretches)?;
                Ok(Method::EffectiveImpedance { conduit, power_factor })
            }
            "phasor" => {
                let (conduit, power_factor) = self.conduit_and_power_factor(stretches)?;
                Ok(Method::ExactPhasor { conduit, power_factor })
            }
            _ => Err(Problem::at("method", word(&text, "method", METHODS))),
        }
    }

    fn temperature(&self, stretches: &[Stretch], answer: &mut Answer) -> Result<Celsius, Problem> {
        match given("conductor-temperature", self.conductor_temperature.as_ref())? {
            Some(temperature) => Ok(temperature),
            None => {
                if stretches.iter().any(Stretch::is_sized) {
                    answer.assume("conductors at 75 °C, the base of the table");
                }
                Ok(Celsius::from_whole(75))
            }
        }
    }

    fn conduit_and_power_factor(&self, stretches: &[Stretch]) -> Result<(Conduit, PowerFactor), Problem> {
        let power_factor = required("power-factor", self.power_factor.as_ref(), "0.85")?;
        match given("conduit", self.conduit.as_ref())? {
            Some(conduit) => Ok((conduit, power_factor)),
            None if stretches.iter().any(Stretch::is_sized) => Err(missing("conduit", "PVC")),
            // Every impedance is stated: no table is read, so the conduit decides nothing.
            None => Ok((Conduit::Pvc, power_factor)),
        }
    }
}

fn report(code: &dyn Code, found: &VoltageDrop, method: Method, answer: &mut Answer) {
    answer.governed_by(method.name().replace(' ', "-"));
    answer.quantity(found.drop);
    let shown = found.drop.rounded_up();
    let rises = if found.rises { "rise of " } else { "" };
    match found.share() {
        Some(share) => answer.say(format_args!("{rises}{shown}, {share} of {}", found.supply)),
        None => answer.say(format_args!("{rises}{shown}")),
    }
    answer.figure("direction", if found.rises { "rise" } else { "drop" });
    answer.figure("at_load_rounded_down", found.at_load());
    if let Some(share) = found.share() {
        answer.figure("share_rounded_up", share);
    }
    if let DropAdvice::Advisory { branch, total } = code.drop_advice() {
        for (what, limit) in [("a branch circuit or a feeder alone", branch), ("feeder and branch circuit", total)] {
            let verdict = if found.within(limit.value) { "within it" } else { "more than that" };
            answer.working.step(|| {
                Step::new(format!("recommended for {what}: at most {}", limit.value), verdict)
                    .by(&code.section("voltage-drop-note"))
            });
        }
    }
}

fn word<const N: usize>(text: &str, kind: &str, words: [&'static str; N]) -> String {
    let shown: String = text.trim().chars().take(60).collect();
    let advice = match nearest(&shown, words.into_iter()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("write one of: {}", words.join(", ")),
    };
    format!("`{shown}` is not a known {kind}; {advice}")
}
