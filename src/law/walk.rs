//! Every figure of a law by its path: for checking, showing and editing them in one way.

use super::{Figure, Regime};
use crate::quantity::Measure;
use crate::source::Source;

/// Where a figure stands.
#[derive(Clone, Debug)]
pub struct Place<'a> {
    /// Path inside the file, such as `group[0].step[1].limit`.
    pub path: String,
    /// Words for people.
    pub label: String,
    /// What it measures.
    pub measure: Measure,
    /// The rule's own source.
    pub source: Option<&'a Source>,
}

impl Regime {
    /// Goes through every figure, stated or not.
    pub fn walk(&mut self, see: &mut dyn FnMut(&Place<'_>, &mut Figure)) {
        let mut at =
            |path: String, label: String, measure, source: Option<&Source>, figure: &mut _| {
                let place = Place {
                    path,
                    label,
                    measure,
                    source,
                };
                see(&place, figure);
            };
        let (mass, length) = (Measure::Mass, Measure::Length);
        let word = str::to_owned;
        at(
            word("single_axle"),
            word("Single axle"),
            mass,
            None,
            &mut self.single_axle,
        );
        at(
            word("driven_axle"),
            word("Single driven axle"),
            mass,
            None,
            &mut self.driven_axle,
        );
        for (index, group) in self.groups.iter_mut().enumerate() {
            for (step, row) in group.step.iter_mut().enumerate() {
                let path = |name: &str| format!("group[{index}].step[{step}].{name}");
                let end = match (row.below.is_stated(), row.to.is_stated()) {
                    (true, _) => format!(", axles less than {} apart", row.below.words()),
                    (_, true) => format!(", axles up to {} apart", row.to.words()),
                    _ => String::new(),
                };
                let name = format!("{}{end}", capital(&group.name));
                let source = group.source.as_ref();
                at(path("limit"), name.clone(), mass, source, &mut row.limit);
                let better = format!("{name}, twin tyres and air springs");
                at(
                    path("road_friendly"),
                    better,
                    mass,
                    source,
                    &mut row.road_friendly,
                );
                let below = format!("{name}: distance less than");
                at(path("below"), below, length, source, &mut row.below);
                at(
                    path("to"),
                    format!("{name}: distance up to"),
                    length,
                    source,
                    &mut row.to,
                );
            }
        }
        for (index, gross) in self.gross.iter_mut().enumerate() {
            let name = match gross.name.as_str() {
                "" => word("Gross weight"),
                name => format!("Gross weight, {name}"),
            };
            let path = format!("gross[{index}].limit");
            at(path, name.clone(), mass, None, &mut gross.limit);
            let path = format!("gross[{index}].trailer_above");
            let name = format!("{name}: trailer axles farther apart than");
            at(path, name, length, None, &mut gross.trailer_above);
        }
        for (index, one) in self.allowances.iter_mut().enumerate() {
            let name = capital(&one.name);
            let source = Some(&one.source);
            at(
                format!("allowance[{index}].adds"),
                name.clone(),
                mass,
                source,
                &mut one.adds,
            );
            let path = format!("allowance[{index}].ceiling");
            at(
                path,
                format!("{name}: gross weight at most"),
                mass,
                source,
                &mut one.ceiling,
            );
        }
        if let Some(width) = &mut self.tyre_width {
            let per = Measure::LoadForWidth;
            for (name, label, measure, figure) in [
                (
                    "steered",
                    "Steer axle, for tyre width",
                    per,
                    &mut width.steered,
                ),
                (
                    "others",
                    "Other axles, for tyre width",
                    per,
                    &mut width.others,
                ),
                (
                    "floor",
                    "Least that states may set, for tyre width",
                    per,
                    &mut width.floor,
                ),
                (
                    "steer_axle_floor",
                    "Least that states may set, steer axle",
                    mass,
                    &mut width.steer_axle_floor,
                ),
            ] {
                at(
                    format!("tyre_width.{name}"),
                    word(label),
                    measure,
                    None,
                    figure,
                );
            }
        }
        for (name, label, figure) in self.sizes.each() {
            at(format!("sizes.{name}"), word(label), length, None, figure);
        }
    }
}

fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}
