//! Questions by name: whatever `loadworthy calc` and `loadworthy size` answer, with the same options and the same bytes.

use std::ffi::c_char;
use std::sync::OnceLock;

use loadworthy::cli::{Asked, Brief, Form, NotUnderstood, Outcome};

use crate::border::{Out, OutHandle, OutStruct, Plain, Text, Texts, free, guard, handle, lw_str, text, texts};
use crate::code::{Shared, lw_code};
use crate::error::{Result, fail, lw_error};
use crate::outcome::{LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_FAILS, LW_OUTCOME_HOLDS, lw_outcome};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_NOT_UNDERSTOOD, lw_status};

/// The most options that a question is asked with.
const MOST_OPTIONS: usize = 4096;

/// The answer to a question that was asked by name. It is only read: several threads may do so at once.
pub struct lw_answer {
    nec: Shared,
    asked: Asked,
    outcome: lw_outcome,
    figure: Option<Text>,
    value: Option<Text>,
    unit: Option<Text>,
    governed_by: Option<Text>,
    text: OnceLock<Text>,
    json: OnceLock<Text>,
}

const _: () = {
    const fn shared<T: Send + Sync>() {}
    shared::<lw_answer>();
};

/// What answers a question, without its working: an output. Its texts live as long as the answer; one that has nothing to
/// say has NULL as its `data`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_brief {
    /// Set it to `sizeof(lw_brief)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where the answer is no.
    pub outcome: lw_outcome,
    /// Zero.
    pub reserved: i32,
    /// A number with its unit, or a size: `45 A`, `6 AWG`; none where that is not what answers.
    pub figure: lw_str,
    /// The number alone: an exact decimal, or what names a size.
    pub value: lw_str,
    /// Its unit.
    pub unit: lw_str,
    /// The word for what limits the answer, such as `terminals`.
    pub governed_by: lw_str,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_brief {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        reserved: 0,
        figure: lw_str::NONE,
        value: lw_str::NONE,
        unit: lw_str::NONE,
        governed_by: lw_str::NONE,
    };
}

impl lw_answer {
    fn new(question: &str, asked: Asked, nec: Shared) -> std::result::Result<Self, NotUnderstood> {
        let (brief, json) = if question == "size-kit" {
            // Answered by several side by side, and only in writing.
            let (outcome, json) = asked.written(nec.code(), true, Form::Json)?;
            (Brief { outcome, figure: None, governed_by: None }, OnceLock::from(Text::new(json)))
        } else {
            (asked.brief(nec.code())?, OnceLock::new())
        };
        let parts = brief.figure.as_deref().and_then(|figure| figure.split_once(' '));
        Ok(Self {
            outcome: match brief.outcome {
                Outcome::Answered => LW_OUTCOME_HOLDS,
                Outcome::No => LW_OUTCOME_FAILS,
                Outcome::CannotTell => LW_OUTCOME_CANNOT_TELL,
            },
            value: parts.map(|(value, _)| Text::new(value)),
            unit: parts.map(|(_, unit)| Text::new(unit)),
            figure: brief.figure.map(Text::new),
            governed_by: brief.governed_by.map(Text::new),
            text: OnceLock::new(),
            json,
            nec,
            asked,
        })
    }

    fn written<'a>(&self, kept: &'a OnceLock<Text>, form: Form) -> Result<&'a Text> {
        if let Some(text) = kept.get() {
            return Ok(text);
        }
        let (_, text) =
            self.asked.written(self.nec.code(), true, form).map_err(|wrong| not_understood("answer", &wrong))?;
        Ok(kept.get_or_init(|| Text::new(text)))
    }
}

/// As the command says it; the place is the option.
#[cold]
fn not_understood(question: &str, wrong: &NotUnderstood) -> Box<lw_error> {
    lw_error::of_words(LW_STATUS_NOT_UNDERSTOOD, wrong.option().unwrap_or(question), &wrong.to_string())
}

/// Asks a question by its name: each that `loadworthy calc` and `loadworthy size` answer, with the same options.
///
/// `question` is its name: `ampacity`, `voltage-drop`, and with `size-` before it what `loadworthy size` answers:
/// `size-motor`, `size-kit`, `size-solve`. `loadworthy calc --help` and `loadworthy size --help` list them.
///
/// `names` and `values` are arrays of `count` texts, at most 4096: each option by its name, with dashes or underscores and
/// nothing before it, and its value as text with its unit: `current`, `24 A`. An option that may be said several times
/// stands once for each value, in their order. A value whose `data` is NULL is not stated. The texts are read during the
/// call alone.
///
/// A question of an unknown name is `LW_STATUS_BAD_CHOICE`. An option that the question has not, one said twice, one that
/// is missing, and a value that cannot be read are `LW_STATUS_NOT_UNDERSTOOD`: the message of the error says what to write,
/// and its place is the name of the option. On success `*answer_out` owns the answer, which keeps its code: release it with
/// `lw_answer_free`. Where a table does not tell, there is an answer whose outcome is `LW_OUTCOME_CANNOT_TELL`.
///
/// Nothing but the outputs is written: any number of threads may ask at once, of one code.
///
/// ```c
/// lw_str names[] = {lw_text("output"), lw_text("voltage"), lw_text("phases"), lw_text("material"), lw_text("insulation"),
///                   lw_text("device")};
/// lw_str values[] = {lw_text("5 hp"), lw_text("230 V"), lw_text("single-phase"), lw_text("copper"), lw_text("THWN-2"),
///                    lw_text("inverse-time breaker")};
/// lw_answer *answer;
/// lw_str text;
/// if (lw_ask(code, "size-motor", strlen("size-motor"), names, values, 6, &answer, NULL) == LW_STATUS_OK) {
///     if (lw_answer_text(answer, &text, NULL) == LW_STATUS_OK) puts(text.data);
///     lw_answer_free(answer);
/// }
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_ask(
    code: *const lw_code,
    question: *const c_char,
    question_len: usize,
    names: *const lw_str,
    values: *const lw_str,
    count: usize,
    answer_out: *mut *mut lw_answer,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(answer_out, "answer_out")?;
        let code = handle(code, "code")?;
        let question = text(question, question_len, "question")?;
        let names = texts(names, count, MOST_OPTIONS, "names")?;
        let values = texts(values, count, MOST_OPTIONS, "values")?;
        let mut asked = Asked::new(question).ok_or_else(|| {
            let shown: String = question.chars().take(60).collect();
            let what = format_args!("`{shown}` is no question; write one, such as ampacity or size-motor");
            fail(LW_STATUS_BAD_CHOICE, "question", what)
        })?;
        for (name, value) in names.into_iter().zip(values) {
            if let Some(value) = value {
                let name = name.unwrap_or_default().replace('-', "_");
                asked.set(&name, value).map_err(|wrong| not_understood("question", &wrong))?;
            }
        }
        let answer = lw_answer::new(question, asked, code.nec.clone());
        out.give(answer.map_err(|wrong| not_understood("question", &wrong))?);
        Ok(())
    })
}

/// Frees an answer; NULL does nothing. After it none of its texts may be used.
///
/// Not while another call uses the answer.
///
/// ```c
/// lw_answer_free(answer);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_answer_free(answer: *mut lw_answer) -> lw_status {
    free(answer, "answer")
}

/// What answers the question, without its working. The texts live as long as the answer. A connection kit, `size-kit`, is
/// answered by several side by side: it has an outcome, and all else is in its text and its JSON.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_brief brief = lw_brief_init();
/// if (lw_answer_brief(answer, &brief, NULL) == LW_STATUS_OK && brief.outcome == LW_OUTCOME_HOLDS && brief.figure.data)
///     puts(brief.figure.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_answer_brief(
    answer: *const lw_answer,
    brief_out: *mut lw_brief,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(brief_out, "brief_out")?;
        let answer = handle(answer, "answer")?;
        out.write(lw_brief {
            outcome: answer.outcome,
            figure: answer.figure.or_none(),
            value: answer.value.or_none(),
            unit: answer.unit.or_none(),
            governed_by: answer.governed_by.or_none(),
            ..lw_brief::UNSTATED
        });
        Ok(())
    })
}

/// The answer with its working for a person to read, byte for byte as the command prints it with `--edition` and the code's
/// identifier. It is made when it is first asked for, and lives as long as the answer.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str text;
/// lw_answer_text(answer, &text, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_answer_text(
    answer: *const lw_answer,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        let answer = handle(answer, "answer")?;
        out.write(answer.written(&answer.text, Form::Text)?.as_str());
        Ok(())
    })
}

/// The answer with its working for a program, byte for byte as the command prints it with `--format json`, and `--edition`
/// and the code's identifier. It is made when it is first asked for, and lives as long as the answer.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str json;
/// lw_answer_json(answer, &json, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_answer_json(
    answer: *const lw_answer,
    json_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(json_out, "json_out", lw_str::NONE)?;
        let answer = handle(answer, "answer")?;
        out.write(answer.written(&answer.json, Form::Json)?.as_str());
        Ok(())
    })
}
