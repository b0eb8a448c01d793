//! Undo and redo: whole plans, so that both are exact.

use super::{Edit, Plan, Refusal, TrailerLoad};
use crate::library::Library;

/// One step: what it is called, and the plan on its other side.
#[derive(Clone, Debug)]
struct Step {
    name: String,
    plan: Plan,
    /// It put another plan on the bench.
    whole: bool,
}

/// A plan with its past and its future.
#[derive(Clone, Debug)]
pub struct History {
    now: Plan,
    past: Vec<Step>,
    future: Vec<Step>,
    /// The next edit goes on with the gesture of the last one.
    goes_on: bool,
    /// The last step was an edit, and nothing has happened since.
    open: bool,
}

impl History {
    /// Steps that are remembered.
    pub const MOST_STEPS: usize = 200;

    /// Starts with a plan and no past.
    #[must_use]
    pub const fn new(plan: Plan) -> Self {
        Self {
            now: plan,
            past: Vec::new(),
            future: Vec::new(),
            goes_on: false,
            open: false,
        }
    }

    /// The plan as it stands.
    #[must_use]
    pub const fn plan(&self) -> &Plan {
        &self.now
    }

    /// Says that the next edit goes on with the gesture that made the last one, such as one more press
    /// of a key on a slider. If it changes the same thing, both are one step.
    pub const fn go_on(&mut self) {
        self.goes_on = true;
    }

    /// Applies an edit and remembers the plan before it. An edit that changes nothing is not a step, nor
    /// is a gesture that ends where it began.
    ///
    /// # Errors
    /// The reason why the edit is not possible; the plan is then unchanged.
    pub fn apply(&mut self, edit: &Edit, library: &Library) -> Result<(), Refusal> {
        let goes_on = std::mem::take(&mut self.goes_on) && self.open;
        let next = edit.applied(&self.now, library)?;
        if next == self.now {
            return Ok(());
        }
        let name = edit.name(&self.now, library);
        match self.past.last() {
            Some(last) if goes_on && last.name == name => {
                self.now = next;
                if last.plan == self.now {
                    self.past.pop();
                    self.open = false;
                }
            }
            _ => {
                self.push(name, next, false);
                self.open = true;
            }
        }
        Ok(())
    }

    /// Replaces the whole plan as one step, as opening a file does.
    pub fn step(&mut self, name: String, next: Plan) {
        self.push(name, next, true);
        self.open = false;
    }

    fn push(&mut self, name: String, next: Plan, whole: bool) {
        let plan = std::mem::replace(&mut self.now, next);
        self.past.push(Step { name, plan, whole });
        if self.past.len() > Self::MOST_STEPS {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// Takes the last step back; false when there is none.
    pub fn undo(&mut self) -> bool {
        let step = self.past.pop();
        self.swap(step, |history| &mut history.future)
    }

    /// Does the last undone step again; false when there is none.
    pub fn redo(&mut self) -> bool {
        let step = self.future.pop();
        self.swap(step, |history| &mut history.past)
    }

    fn swap(&mut self, step: Option<Step>, other: fn(&mut Self) -> &mut Vec<Step>) -> bool {
        let Some(mut step) = step else { return false };
        std::mem::swap(&mut self.now, &mut step.plan);
        self.open = false;
        other(self).push(step);
        true
    }

    /// Name of the step that undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// Name of the step that redo would do again.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// The trailer of this plan, or the last one that it had on the bench: what a person who takes the
    /// trailer off and puts it back finds on it again.
    #[must_use]
    pub fn last_trailer(&self) -> Option<&TrailerLoad> {
        let before = self.past.iter().rev().take_while(|step| !step.whole);
        let plans = std::iter::once(&self.now).chain(before.map(|step| &step.plan));
        plans.filter_map(|plan| plan.loads.trailer.as_ref()).next()
    }
}
