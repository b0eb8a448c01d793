//! The program of the first view: the bench, where every change is a view of all panels.

use super::{Done, Unusable, json, options, read, refused, value};
use crate::drawing;
use crate::findings;
use crate::plan::Edit;
use crate::quantity::Units;
use crate::source::{Problems, json_value};
use crate::web::held::Held;
use crate::web::session::Session;
use crate::web::snap::SnapQuestion;
use crate::web::view::Shown;
use wasm_bindgen::prelude::*;

/// The planner that the page talks to. Every answer is JSON text, except drawings and files.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Planner {
    session: Session,
    held: Held,
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
                held: Held::default(),
            })
            .map_err(|p| JsError::new(&p.to_string()))
    }

    /// The view of the plan as it stands, in words; as after each change and try, those that differ
    /// from the view that the page has, by its number (see [`Held::show`]).
    pub fn view(&mut self, choice: JsValue, have: u32) -> String {
        let before = self.held.shown();
        let view = self.session.view_after(&options(choice), before);
        self.show(view, have)
    }

    /// The view as if an edit were made.
    pub fn probe(&mut self, edit: JsValue, choice: JsValue, have: u32) -> String {
        match read_edit(edit) {
            Err(text) => refused(text),
            Ok(edit) => {
                let before = self.held.shown();
                let view = self.session.probe_after(&edit, &options(choice), before);
                self.show(view, have)
            }
        }
    }

    /// A drawing of what the last view or probe told in words: 0 for side, 1 for plan, 2 for rear.
    /// What differs from the one that the page has, by its number (see [`Held::picture`]). Its pens
    /// come once, from [`Planner::pens`].
    // A number: three texts on the way in were three hundredths of a move.
    #[must_use]
    pub fn picture(&mut self, view: usize, have: u32) -> String {
        self.held.picture(view, have)
    }

    /// Pens and hatches for all pictures, as markup that the page holds once.
    #[must_use]
    pub fn pens() -> String {
        drawing::stage_pens()
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
    pub fn probe_field(&mut self, field: &str, typed: &str, choice: JsValue, have: u32) -> String {
        let choice = options(choice);
        let before = self.held.shown();
        let view = self
            .session
            .edit_for(field, typed, choice.units)
            .and_then(|edit| self.session.probe_after(&edit, &choice, before));
        self.show(view, have)
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

    /// Opens a plan (JSON).
    pub fn open(&mut self, file: &str, text: &str) -> String {
        done(self.session.open_plan(file, text))
    }

    /// Adds library data that was read from TOML, as JSON text.
    pub fn add(&mut self, file: &str, text: &str) -> String {
        done(json_value(file, text).and_then(|value| self.session.add(file, &value)))
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

    /// The manual of a check.
    #[must_use]
    pub fn explain(&self, id: &str) -> String {
        findings::explain(id).map_or_else(String::new, findings::Check::manual)
    }
}

impl Planner {
    fn show<E: ToString>(&mut self, view: Result<Shown, E>, have: u32) -> String {
        match view {
            Ok(shown) => self.held.show(shown, have).unwrap_or_else(refused),
            Err(reason) => refused(reason),
        }
    }
}

fn done(result: Result<String, Problems>) -> String {
    match result {
        Ok(what) => json(&Done {
            ok: true,
            what: Some(what),
        }),
        Err(problems) => json(&Unusable { problems }),
    }
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

fn read_edit(object: JsValue) -> Result<Edit, String> {
    Edit::from_value(&value(object)?).map_err(|refusal| refusal.to_string())
}
