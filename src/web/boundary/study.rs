//! The program that is loaded when somebody asks: pages of answers, sheets, examples, TOML files.
//!
//! It runs beside the page, so that nothing here holds up a mouse move. The page hands it the plan
//! as a file; what it answers about is always the plan that was put last.

use super::{Done, Unusable, json, options, read, refused};
use crate::assessment::Assessment;
use crate::drawing;
use crate::library::{Library, toml_value};
use crate::plan::{Edit, Refusal};
use crate::quantity::Units;
use crate::report;
use crate::web::drive::{Driven, Routes, Wanted};
use crate::web::session::{Examples, Session};
use js_sys::Function;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

/// Answers what takes longer than a mouse move.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Study {
    session: Session,
    routes: Routes,
    /// The last drive, until plan, library or routes are others.
    driven: Option<Driven>,
}

#[derive(Serialize)]
struct Read {
    what: String,
    data: serde_json::Value,
}

#[derive(Serialize)]
struct Sheet {
    svg: String,
}

#[derive(Serialize)]
struct Example {
    text: String,
}

/// What the page tries out without doing it.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Trial {
    edit: Option<serde_json::Value>,
    field: Option<String>,
    typed: String,
}

impl Study {
    /// Answers about the drive of the plan, which is driven only where that was not done yet.
    // By value, as everything of the browser's: see `value`.
    #[expect(
        clippy::needless_pass_by_value,
        reason = "the glue of a reference needs `table.fill`"
    )]
    fn asked(
        &mut self,
        telling: Function,
        answer: impl FnOnce(&mut Driven, &Library, &mut dyn FnMut(f64) -> bool) -> String,
    ) -> String {
        let mut go_on = |share: f64| {
            // A page that no longer listens has ended this program.
            telling
                .call1(&JsValue::NULL, &JsValue::from_f64(share))
                .is_ok()
        };
        let kept = self.driven.take();
        let kept = kept.filter(|d| d.is_of(self.session.plan()));
        let driven = kept.map_or_else(|| self.session.drive(&self.routes, &mut go_on), Ok);
        match driven {
            Ok(driven) => {
                let driven = self.driven.insert(driven);
                answer(driven, self.session.library(), &mut go_on)
            }
            Err(refusal) => refused(refusal),
        }
    }

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
impl Study {
    /// Starts with the demo truck.
    ///
    /// # Errors
    /// Problems of the shipped files.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Study, JsError> {
        Session::new()
            .map(|session| Self {
                session,
                routes: Routes::default(),
                driven: None,
            })
            .map_err(|p| JsError::new(&p.to_string()))
    }

    /// Puts the plan that the next questions are about.
    pub fn put(&mut self, text: &str) -> String {
        match self.session.restore(text) {
            Ok(()) => json(&Done {
                ok: true,
                what: None,
            }),
            Err(problems) => json(&Unusable { problems }),
        }
    }

    /// Reads library data (TOML), adds it here, and gives it as JSON for the planner.
    pub fn toml(&mut self, file: &str, text: &str) -> String {
        self.driven = None;
        let read = toml_value(file, text).and_then(|data| {
            let what = self.session.add(file, &data)?;
            Ok(Read { what, data })
        });
        match read {
            Ok(read) => json(&read),
            Err(problems) => json(&Unusable { problems }),
        }
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

    /// Adds a route: a table, or a recorded track.
    pub fn add_route(&mut self, file: &str, text: &str) -> String {
        self.driven = None;
        match self.routes.add(file, text) {
            Ok(choice) => json(&choice),
            Err(problems) => json(&Unusable { problems }),
        }
    }

    /// The routes by name.
    #[must_use]
    pub fn routes(&self) -> String {
        json(&self.routes.list())
    }

    /// Drives the plan's route; `telling` is called with the share of the way that is done.
    #[must_use]
    pub fn drive(&mut self, choice: JsValue, telling: Function) -> String {
        let units = options(choice).units;
        self.asked(telling, |driven, _, _| json(&driven.view(units)))
    }

    /// One page of the drive of the plan, built now; it is driven for it only where that was not done yet.
    #[must_use]
    pub fn drive_page(&mut self, id: &str, choice: JsValue, telling: Function) -> String {
        let units = options(choice).units;
        self.asked(telling, |driven, _, _| match driven.page(id, units) {
            Ok(page) => json(&page),
            Err(refusal) => refused(refusal),
        })
    }

    /// The table of ranges by temperature, new and at the end of life.
    #[must_use]
    pub fn ranges(&mut self, choice: JsValue, telling: Function) -> String {
        let units = options(choice).units;
        self.asked(telling, |driven, _, go_on| {
            json(&driven.ranges(units, go_on))
        })
    }

    /// The field of the range that packs are wanted for; `wanted` is what was typed and in which units.
    #[must_use]
    pub fn wanted(&self, wanted: JsValue, choice: JsValue) -> String {
        match read::<Wanted>(wanted) {
            Ok(wanted) => json(&wanted.field(options(choice).units)),
            Err(why) => refused(why),
        }
    }

    /// The table of packs for a range, or for the day.
    #[must_use]
    pub fn sizes(&mut self, wanted: JsValue, choice: JsValue, telling: Function) -> String {
        let units = options(choice).units;
        let goal = read::<Wanted>(wanted)
            .map_err(Refusal)
            .and_then(|w| w.goal());
        match goal {
            Ok(goal) => self.asked(telling, |driven, library, go_on| {
                json(&driven.sizes(library, goal, units, go_on))
            }),
            Err(refusal) => refused(refusal),
        }
    }

    /// A drawing sheet: `side`, `plan`, `rear` or `turn`.
    #[must_use]
    pub fn sheet(&self, view: &str, choice: JsValue) -> String {
        let choice = options(choice);
        let Some(view) = drawing::View::named(view) else {
            return refused("there is no such view");
        };
        match Assessment::of(self.session.plan(), self.session.library()) {
            Ok(assessment) => {
                let (units, frame) = (choice.units, choice.show.frame);
                let svg = report::sheet_with(&assessment, view, choice.date, units, frame);
                json(&Sheet { svg })
            }
            Err(problem) => refused(problem),
        }
    }

    /// The shipped examples by name.
    #[must_use]
    pub fn examples(&self) -> String {
        json(&Examples::named())
    }

    /// The text of a shipped example.
    #[must_use]
    pub fn example(&self, id: &str) -> String {
        match Examples::text(id) {
            Some(text) => json(&Example { text }),
            None => refused("there is no such example"),
        }
    }
}
