//! The wasm boundary: strings and plain objects in, JSON text out, drawings as they are.

use super::session::Session;
use super::snap::SnapQuestion;
use super::view::{Shown, ViewOptions};
use crate::assessment::Assessment;
use crate::drawing;
use crate::findings;
use crate::plan::{Edit, Refusal};
use crate::quantity::Units;
use crate::report;
use crate::source::{Problems, from_value, json_value};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

/// The planner that the page talks to. Every answer is JSON text, except drawings and files.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Planner {
    session: Session,
    /// What the page saw last, of which it may want drawings.
    shown: Option<Shown>,
}

#[derive(Serialize)]
struct Done {
    ok: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    what: Option<String>,
}

#[derive(Serialize)]
struct Refused {
    refused: String,
}

#[derive(Serialize)]
struct Unusable {
    problems: Problems,
}

/// What the page tries out without doing it.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Trial {
    edit: Option<serde_json::Value>,
    field: Option<String>,
    typed: String,
}

fn json<T: Serialize>(value: &T) -> String {
    serde_json::to_string(value).unwrap_or_else(|e| {
        format!(
            "{{\"refused\":\"internal: {}\"}}",
            e.to_string().replace('"', "'")
        )
    })
}

fn refused(text: impl ToString) -> String {
    json(&Refused {
        refused: text.to_string(),
    })
}

fn answer<E: ToString>(result: Result<(), E>) -> String {
    match result {
        Ok(()) => json(&Done {
            ok: true,
            what: None,
        }),
        Err(error) => refused(error.to_string()),
    }
}

/// Objects come as text: one reader for files and messages is smaller than two.
// By value, not by reference: references are kept on a stack whose clearing is an instruction that
// the wasm-opt of Debian 12 does not know.
fn value(object: JsValue) -> Result<serde_json::Value, String> {
    let text = js_sys::JSON::stringify(&object)
        .ok()
        .and_then(|text| text.as_string());
    json_value("page", &text.unwrap_or_default()).map_err(|problems| problems.to_string())
}

fn read<T: DeserializeOwned>(object: JsValue) -> Result<T, String> {
    from_value("page", &value(object)?).map_err(|problems| problems.to_string())
}

fn read_edit(object: JsValue) -> Result<Edit, String> {
    Edit::from_value(&value(object)?).map_err(|refusal| refusal.to_string())
}

fn options(object: JsValue) -> ViewOptions {
    read(object).unwrap_or_default()
}

impl Planner {
    fn tried(&self, trial: JsValue, units: Units) -> Result<Option<Edit>, Refusal> {
        let trial: Option<Trial> = read(trial).map_err(Refusal)?;
        match trial.unwrap_or_default() {
            Trial {
                edit: Some(edit), ..
            } => Edit::from_value(&edit).map(Some),
            Trial {
                field: Some(field),
                typed,
                ..
            } => self.session.edit_for(&field, &typed, units).map(Some),
            Trial { .. } => Ok(None),
        }
    }
}

#[wasm_bindgen]
impl Planner {
    /// Starts with the demo truck.
    ///
    /// # Errors
    /// Problems of the shipped files.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Planner, JsError> {
        Session::new()
            .map(|session| Self {
                session,
                shown: None,
            })
            .map_err(|p| JsError::new(&p.to_string()))
    }

    /// The view of the plan as it stands, in words.
    pub fn view(&mut self, choice: JsValue) -> String {
        let view = self.session.view(&options(choice));
        self.show(view)
    }

    /// The view as if an edit were made.
    pub fn probe(&mut self, edit: JsValue, choice: JsValue) -> String {
        match read_edit(edit) {
            Err(text) => refused(text),
            Ok(edit) => {
                let view = self.session.probe(&edit, &options(choice));
                self.show(view)
            }
        }
    }

    /// A drawing of what the last view or probe told in words: `side`, `plan` or `rear`.
    #[must_use]
    pub fn picture(&self, view: &str) -> String {
        match (&self.shown, drawing::View::named(view)) {
            (Some(shown), Some(view)) => shown.drawing(view),
            _ => String::new(),
        }
    }

    /// Makes an edit.
    pub fn apply(&mut self, edit: JsValue) -> String {
        match read_edit(edit) {
            Ok(edit) => answer(self.session.apply(&edit)),
            Err(text) => refused(text),
        }
    }

    /// Takes what was typed into a field.
    pub fn enter(&mut self, field: &str, typed: &str, units: JsValue) -> String {
        let units: Units = read(units).unwrap_or_default();
        answer(self.session.enter(field, typed, units))
    }

    /// The view as if this were typed into a field, for sliders on the move.
    pub fn probe_field(&mut self, field: &str, typed: &str, choice: JsValue) -> String {
        let choice = options(choice);
        let view = self
            .session
            .edit_for(field, typed, choice.units)
            .and_then(|edit| self.session.probe(&edit, &choice));
        self.show(view)
    }

    /// A page of answers; `trial` is what is being tried out and not yet done, if anything:
    /// `{edit}` or `{field, typed}`.
    #[must_use]
    pub fn page(&self, id: &str, choice: JsValue, trial: JsValue) -> String {
        let units = options(choice).units;
        let page = self
            .tried(trial, units)
            .and_then(|edit| self.session.page(id, units, edit.as_ref()));
        match page {
            Ok(page) => json(&page),
            Err(refusal) => refused(refusal),
        }
    }

    /// Where a dragged part comes to rest.
    #[must_use]
    pub fn snap(&self, question: JsValue) -> String {
        match read::<SnapQuestion>(question) {
            Ok(question) => match self.session.snap(&question) {
                Some(found) => json(&found),
                None => refused("no such part, or no such place"),
            },
            Err(text) => refused(text),
        }
    }

    /// Where a part from the shelf goes when nobody carries it.
    #[must_use]
    pub fn spot(&self, part: &str) -> String {
        match self.session.spot(part) {
            Ok(found) => json(&found),
            Err(why) => refused(why.words()),
        }
    }

    /// Moves a part by keyboard steps.
    pub fn nudge(&mut self, tag: &str, axis: &str, steps: f64, big: bool) -> String {
        answer(self.session.nudge(tag, axis, steps, big))
    }

    /// Says that the next change goes on with the gesture of the last one.
    pub fn go_on(&mut self) {
        self.session.go_on();
    }

    /// Takes the last step back.
    pub fn undo(&mut self) -> bool {
        self.session.undo()
    }

    /// Does it again.
    pub fn redo(&mut self) -> bool {
        self.session.redo()
    }

    /// Opens a plan (JSON) or library data (TOML).
    pub fn open(&mut self, file: &str, text: &str) -> String {
        match self.session.open(file, text) {
            Ok(what) => json(&Done {
                ok: true,
                what: Some(what),
            }),
            Err(problems) => json(&Unusable { problems }),
        }
    }

    /// Puts back a plan that the page kept.
    pub fn restore(&mut self, text: &str) -> String {
        match self.session.restore(text) {
            Ok(()) => json(&Done {
                ok: true,
                what: None,
            }),
            Err(problems) => json(&Unusable { problems }),
        }
    }

    /// Starts a new plan on a template.
    pub fn start(&mut self, template: &str) -> String {
        answer(self.session.start(template))
    }

    /// Opens a shipped example.
    pub fn example(&mut self, id: &str) -> String {
        answer(self.session.example(id))
    }

    /// The plan as a file.
    #[must_use]
    pub fn save(&self) -> String {
        self.session.plan().to_json()
    }

    /// A name for that file.
    #[must_use]
    pub fn file_name(&self) -> String {
        self.session.file_name()
    }

    /// What can be chosen.
    #[must_use]
    pub fn catalogue(&self, choice: JsValue) -> String {
        json(&self.session.catalogue(options(choice).units))
    }

    /// A drawing sheet.
    #[must_use]
    pub fn drawing(&self, view: &str, choice: JsValue) -> String {
        let choice = options(choice);
        let Some(view) = drawing::View::named(view) else {
            return String::new();
        };
        match Assessment::of(self.session.plan(), self.session.library()) {
            Ok(assessment) => {
                let frame = choice.show.frame;
                report::sheet_with(&assessment, view, choice.date, choice.units, frame)
            }
            Err(_) => String::new(),
        }
    }

    /// The manual of a check.
    #[must_use]
    pub fn explain(&self, id: &str) -> String {
        findings::explain(id).map_or_else(String::new, findings::Check::manual)
    }

    /// The evaluation as the command line's JSON, for comparison of both builds.
    #[must_use]
    pub fn evaluation(&self, choice: JsValue) -> String {
        match Assessment::of(self.session.plan(), self.session.library()) {
            Ok(assessment) => json(&report::evaluation(&assessment, options(choice).units)),
            Err(problem) => refused(problem),
        }
    }
}

impl Planner {
    fn show<E: ToString>(&mut self, view: Result<Shown, E>) -> String {
        match view {
            Ok(shown) => json(&self.shown.insert(shown).words),
            Err(reason) => refused(reason),
        }
    }
}
