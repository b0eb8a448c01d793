//! Undo and redo: whole plans, so that both are exact.

use super::{Edit, Plan, Refusal};
use crate::library::Library;

/// A plan with its past and its future.
#[derive(Clone, Debug)]
pub struct History {
    now: Plan,
    past: Vec<(String, Plan)>,
    future: Vec<(String, Plan)>,
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
        }
    }

    /// The plan as it stands.
    #[must_use]
    pub const fn plan(&self) -> &Plan {
        &self.now
    }

    /// Applies an edit and remembers the plan before it. An edit that changes nothing is not a step.
    ///
    /// # Errors
    /// The reason why the edit is not possible; the plan is then unchanged.
    pub fn apply(&mut self, edit: &Edit, library: &Library) -> Result<(), Refusal> {
        let next = edit.applied(&self.now, library)?;
        if next != self.now {
            self.step(edit.name(), next);
        }
        Ok(())
    }

    /// Replaces the whole plan as one step, as opening a file does.
    pub fn step(&mut self, name: String, next: Plan) {
        self.past
            .push((name, std::mem::replace(&mut self.now, next)));
        if self.past.len() > Self::MOST_STEPS {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// Takes the last step back; false when there is none.
    pub fn undo(&mut self) -> bool {
        let Some((name, plan)) = self.past.pop() else {
            return false;
        };
        self.future
            .push((name, std::mem::replace(&mut self.now, plan)));
        true
    }

    /// Does the last undone step again; false when there is none.
    pub fn redo(&mut self) -> bool {
        let Some((name, plan)) = self.future.pop() else {
            return false;
        };
        self.past
            .push((name, std::mem::replace(&mut self.now, plan)));
        true
    }

    /// Name of the step that undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|(name, _)| name.as_str())
    }

    /// Name of the step that redo would do again.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|(name, _)| name.as_str())
    }
}
