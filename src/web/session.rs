//! A session: library, plan with history, and what a person does to them.

use super::view::{self, Shown, ViewOptions};
use crate::assessment::Assessment;
use crate::library::{FileKind, Library, toml_value};
use crate::numeric::sort;
use crate::part::Part;
use crate::plan::{Edit, History, Place, Plan, Refusal};
use crate::quantity::Units;
use crate::report::{self, Page};
use crate::source::{Problem, Problems};
use crate::vehicle::Vehicle;
use rust_embed::RustEmbed;
use serde_json::Value;

#[derive(RustEmbed)]
#[folder = "examples/"]
#[include = "*.json"]
#[exclude = "*.schema.json"]
#[exclude = "wrong/*"]
struct Plans;

/// The example plans that are shipped.
#[derive(Debug)]
pub struct Examples;

impl Examples {
    /// The plan that the page opens with.
    pub const DEMO: &'static str = "gullwharf-drayage";
    /// Its text, which the page needs before any other.
    pub const DEMO_TEXT: &'static str = include_str!("../../examples/gullwharf-drayage.json");

    /// Ids and texts, in order.
    pub fn all() -> impl Iterator<Item = (String, String)> {
        let mut names: Vec<_> = Plans::iter().collect();
        sort(&mut names);
        names.into_iter().filter_map(|name| {
            let id = name.strip_suffix(".json")?.to_owned();
            let text = Self::text(&id)?;
            Some((id, text))
        })
    }

    /// Text of one example.
    #[must_use]
    pub fn text(id: &str) -> Option<String> {
        let file = Plans::get(&format!("{id}.json"))?;
        Some(String::from_utf8_lossy(&file.data).into_owned())
    }
}

/// What a person works with.
#[derive(Debug)]
pub struct Session {
    pub(super) library: Library,
    pub(super) history: History,
}

impl Session {
    /// Small step of the arrow keys.
    pub const STEP_MM: f64 = 10.0;
    /// Large step of the arrow keys.
    pub const BIG_STEP_MM: f64 = 100.0;

    /// Starts with the demo truck.
    ///
    /// # Errors
    /// Problems of the shipped files, which a test keeps empty.
    pub fn new() -> Result<Self, Problems> {
        let library = Library::shipped();
        if !library.problems.is_empty() {
            return Err(Problems(library.problems));
        }
        let plan = Plan::from_json(Examples::DEMO, Examples::DEMO_TEXT)?;
        Ok(Self {
            library,
            history: History::new(plan),
        })
    }

    /// The plan as it stands.
    #[must_use]
    pub const fn plan(&self) -> &Plan {
        self.history.plan()
    }

    /// The library with what the user added.
    #[must_use]
    pub const fn library(&self) -> &Library {
        &self.library
    }

    /// Every part that can be chosen: the library's, then the plan's own.
    pub(super) fn parts<'a>(&'a self, plan: &'a Plan) -> impl Iterator<Item = &'a Part> {
        self.library.each_part().chain(&plan.parts)
    }

    /// Makes an edit.
    ///
    /// # Errors
    /// The reason why it is not possible; nothing has changed then.
    pub fn apply(&mut self, edit: &Edit) -> Result<(), Refusal> {
        self.history.apply(edit, &self.library)
    }

    /// The view of the plan as it stands.
    ///
    /// # Errors
    /// The plan names a chassis that does not exist.
    pub fn view(&self, options: &ViewOptions) -> Result<Shown, Box<Problem>> {
        self.view_after(options, None)
    }

    /// The same view, quicker when little has changed since what was shown before.
    ///
    /// # Errors
    /// The plan names a chassis that does not exist.
    pub fn view_after(
        &self,
        options: &ViewOptions,
        before: Option<&Shown>,
    ) -> Result<Shown, Box<Problem>> {
        let known = before.map(Shown::assessment);
        let assessment = Assessment::after(self.plan(), &self.library, known)?;
        Ok(view::show(self, self.plan(), assessment, options, before))
    }

    /// The view of the plan as if an edit were made.
    ///
    /// # Errors
    /// The reason why the edit is not possible.
    pub fn probe(&self, edit: &Edit, options: &ViewOptions) -> Result<Shown, Refusal> {
        self.probe_after(edit, options, None)
    }

    /// The same view, quicker when little has changed since what was shown before.
    ///
    /// # Errors
    /// The reason why the edit is not possible.
    pub fn probe_after(
        &self,
        edit: &Edit,
        options: &ViewOptions,
        before: Option<&Shown>,
    ) -> Result<Shown, Refusal> {
        let plan = edit.applied(self.plan(), &self.library)?;
        let known = before.map(Shown::assessment);
        let assessment =
            Assessment::after(&plan, &self.library, known).map_err(|p| Refusal(p.to_string()))?;
        Ok(view::show(self, &plan, assessment, options, before))
    }

    /// A page of answers: of the plan as it stands, or as if an edit were made.
    ///
    /// # Errors
    /// There is no such page, or the reason why the edit is not possible.
    pub fn page(&self, id: &str, units: Units, trial: Option<&Edit>) -> Result<Page, Refusal> {
        let tried = trial.map(|edit| edit.applied(self.plan(), &self.library));
        let plan = tried.transpose()?;
        let plan = plan.as_ref().unwrap_or_else(|| self.plan());
        let assessment = Assessment::of(plan, &self.library).map_err(|p| Refusal(p.to_string()))?;
        report::page(id, &assessment, units)
            .ok_or_else(|| Refusal(format!("there is no page \"{id}\"")))
    }

    /// Moves a part by keyboard steps along one axis.
    ///
    /// # Errors
    /// The reason why it is not possible.
    pub fn nudge(&mut self, tag: &str, axis: &str, steps: f64, big: bool) -> Result<(), Refusal> {
        let refuse = |text: String| Err(Refusal(text));
        if !steps.is_finite() {
            return refuse(format!("{steps} is not a number of steps"));
        }
        let by = steps
            * if big {
                Self::BIG_STEP_MM
            } else {
                Self::STEP_MM
            };
        let Some(placed) = self.plan().placed_by_tag(tag) else {
            return refuse(format!("no part \"{tag}\" on the truck"));
        };
        let vehicle = Vehicle::resolve(self.plan(), &self.library)
            .map_err(|problem| Refusal(problem.to_string()))?;
        let at = vehicle.position(&placed.place);
        let (mut x_mm, mut y_mm, mut z_mm) = (at.x, at.y, at.z);
        match axis {
            "x" => x_mm += by,
            "y" => y_mm += by,
            "z" => z_mm += by,
            other => return refuse(format!("\"{other}\" is not an axis (x, y, z)")),
        }
        self.apply(&Edit::Move {
            tag: tag.to_owned(),
            x_mm,
            y_mm,
            z_mm,
            zone: None,
        })
    }

    /// Opens a file that a person chose or dropped: a plan (JSON), or library data (TOML). On
    /// problems nothing has changed.
    ///
    /// # Errors
    /// Every problem with file, path, value and what would be accepted.
    pub fn open(&mut self, file: &str, text: &str) -> Result<String, Problems> {
        let unmarked = text.strip_prefix('\u{feff}').unwrap_or(text);
        if unmarked.trim_start().starts_with('{') {
            self.open_plan(file, text)
        } else {
            self.add(file, &toml_value(file, text)?)
        }
    }

    /// Opens a plan. On problems nothing has changed.
    ///
    /// # Errors
    /// Every problem with file, path, value and what would be accepted.
    pub fn open_plan(&mut self, file: &str, text: &str) -> Result<String, Problems> {
        let plan = Plan::from_json(file, text)?;
        // It must be possible to draw it before the plan on screen gives way.
        Vehicle::resolve(&plan, &self.library).map_err(|mut problem| {
            file.clone_into(&mut problem.file);
            Problems(vec![*problem])
        })?;
        let name = plan.name.clone();
        self.history.step(format!("Open {name}"), plan);
        Ok(format!("plan {name}"))
    }

    /// Adds library data that was read from TOML. On problems nothing has changed.
    ///
    /// # Errors
    /// Every problem with file, path, value and what would be accepted.
    pub fn add(&mut self, file: &str, value: &Value) -> Result<String, Problems> {
        Ok(match self.library.add_value(file, value)? {
            FileKind::Chassis(id) => format!("chassis {id}"),
            FileKind::Trailer(id) => format!("trailer {id}"),
            FileKind::Parts(ids) => format!("{} parts", ids.len()),
            FileKind::Law(id) => format!("road law {id}"),
        })
    }

    /// Puts back a plan that the page kept, with no step to go back to.
    ///
    /// # Errors
    /// Every problem with file, path, value and what would be accepted; nothing has changed then.
    pub fn restore(&mut self, text: &str) -> Result<(), Problems> {
        self.open_plan("the plan kept in this browser", text)?;
        self.history = History::new(self.plan().clone());
        Ok(())
    }

    /// Starts a new plan on a template, as one step that can be undone.
    ///
    /// # Errors
    /// The template does not exist.
    pub fn start(&mut self, template: &str) -> Result<(), Refusal> {
        let chassis = self
            .library
            .chassis
            .get(template)
            .ok_or_else(|| Refusal(format!("no chassis \"{template}\" in the library")))?;
        let plan = Plan::on(chassis);
        self.history.step(plan.name.clone(), plan);
        Ok(())
    }

    /// Opens an example, as one step that can be undone.
    ///
    /// # Errors
    /// The example does not exist.
    pub fn example(&mut self, id: &str) -> Result<(), Problems> {
        let text = Examples::text(id).ok_or_else(|| {
            Problems::from(Problem::new(
                "examples",
                "",
                id,
                "is not a shipped example",
                "",
            ))
        })?;
        self.open_plan(id, &text).map(|_| ())
    }

    /// Says that the next change goes on with the gesture of the last one: both are one step.
    pub const fn go_on(&mut self) {
        self.history.go_on();
    }

    /// Takes the last step back.
    pub fn undo(&mut self) -> bool {
        self.history.undo()
    }

    /// Does it again.
    pub fn redo(&mut self) -> bool {
        self.history.redo()
    }

    /// A name for the plan's file: plain letters, digits and dashes.
    #[must_use]
    pub fn file_name(&self) -> String {
        let name = slug(&self.plan().name);
        format!("{}.json", if name.is_empty() { "plan" } else { &name })
    }

    /// Zone that a plan's part is counted in.
    pub(super) fn zone_of(place: &Place) -> Option<&str> {
        match place {
            Place::Zone { id, .. } => Some(id),
            Place::Free { .. } => None,
        }
    }
}

/// A name as plain letters, digits and dashes, for files and ids.
pub(super) fn slug(name: &str) -> String {
    let mut slug = String::new();
    for c in name.chars().take(60) {
        if c.is_ascii_alphanumeric() {
            slug.push(c.to_ascii_lowercase());
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
    }
    slug.trim_end_matches('-').to_owned()
}
