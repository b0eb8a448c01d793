//! Road-law regimes as data: what the law allows, each figure in the unit in which the law prints it,
//! with its source and whether states or countries may set another.
//!
//! The rules that apply the figures to a truck stand in `legality`.

mod allowance;
mod bridge;
mod figure;
mod rules;
mod walk;

pub use allowance::{Allowance, Power, Raised};
pub use bridge::{BridgeFormula, ShortRow, TandemPair};
pub use figure::Figure;
pub use rules::{Class, Gross, Group, Measured, Of, Share, Sizes, Step, TyreWidth};
pub use walk::Place;

use crate::source::{Basis, Checker, Problems, Source};
use serde::{Deserialize, Serialize};

/// What one jurisdiction allows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Regime {
    /// Format of a law file; 2 today.
    pub law_format: u32,
    /// Identifier, unique in the library.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Document and section, for every figure that names none of its own.
    pub source: Source,
    /// Edition of the text.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub edition: String,
    /// Date on which somebody last compared the figures with the text, `YYYY-MM-DD`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub checked: String,
    /// What a reader must know: what is left out, what states may change.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Single axle; where a driven one has a limit of its own, the others.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub single_axle: Figure,
    /// Single driven axle; as the others where left out.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub driven_axle: Figure,
    /// Axles that stand so close that the law limits them together.
    #[serde(default, rename = "group", skip_serializing_if = "Vec::is_empty")]
    pub groups: Vec<Group>,
    /// Gross weights; of those that fit a vehicle the highest holds.
    #[serde(default, rename = "gross", skip_serializing_if = "Vec::is_empty")]
    pub gross: Vec<Gross>,
    /// What vehicles of some drivelines may weigh more.
    #[serde(default, rename = "allowance", skip_serializing_if = "Vec::is_empty")]
    pub allowances: Vec<Allowance>,
    /// Limit of every group of consecutive axles by its length, where the law has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bridge: Option<BridgeFormula>,
    /// Limits by tyre width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre_width: Option<TyreWidth>,
    /// Least part of the whole weight that the driven axles carry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub driven_share: Option<Share>,
    /// Least part of the truck's weight that its steered axles carry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steered_share: Option<Share>,
    /// Lengths, width, height, radii.
    #[serde(default)]
    pub sizes: Sizes,
}

pub(super) fn is_date(text: &str) -> bool {
    let date = text.as_bytes();
    date.len() == 10
        && date.iter().enumerate().all(|(i, b)| match i {
            4 | 7 => *b == b'-',
            _ => b.is_ascii_digit(),
        })
}

impl Regime {
    /// Format of a law file that this build reads.
    pub const FORMAT: u32 = 2;
    /// Id of the law that a plan brings along.
    pub const OWN: &'static str = "own";

    /// A law without figures, for a person to fill in.
    #[must_use]
    pub fn blank() -> Self {
        let group = |name: &str, axles, counts_as| Group {
            name: name.to_owned(),
            of: None,
            axles: Some(axles),
            measured: Measured::Between,
            source: None,
            step: vec![Step {
                counts_as,
                ..Step::default()
            }],
        };
        Self {
            law_format: Self::FORMAT,
            id: Self::OWN.to_owned(),
            name: "Own limits".to_owned(),
            source: Source::new(Basis::Estimate, "entered by the user"),
            edition: String::new(),
            checked: String::new(),
            notes: String::new(),
            single_axle: Figure::default(),
            driven_axle: Figure::default(),
            groups: vec![
                group("tandem", 2, Class::Tandem),
                group("tridem", 3, Class::Tridem),
            ],
            gross: vec![Gross::default()],
            allowances: Vec::new(),
            bridge: None,
            tyre_width: Some(TyreWidth::default()),
            driven_share: None,
            steered_share: None,
            sizes: Sizes::default(),
        }
    }

    /// A copy for a person to change; what is not changed keeps its source.
    #[must_use]
    pub fn to_own(&self) -> Self {
        let mut own = self.clone();
        let source = self.source.clone();
        own.walk(&mut |place, figure| {
            if figure.is_stated() && figure.source.is_none() {
                figure.source = Some(place.source.cloned().unwrap_or_else(|| source.clone()));
            }
        });
        Self::OWN.clone_into(&mut own.id);
        own.name = format!("Own limits, from {}", self.name);
        own.source = Source::new(Basis::Estimate, "entered by the user");
        own.tyre_width.get_or_insert_default();
        own
    }

    /// Checks every number.
    ///
    /// # Errors
    /// All problems at once.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        self.check_under(&mut c);
        c.done()
    }

    pub(crate) fn check_under(&self, c: &mut Checker) {
        if self.law_format != Self::FORMAT {
            let (what, hint) = ("is not a known law format", "2");
            c.problem("law_format", self.law_format, what, hint);
        }
        c.id("id", &self.id);
        c.text("name", &self.name, 160);
        c.text("notes", &self.notes, 4_000);
        if !self.checked.is_empty() && !is_date(&self.checked) {
            c.problem("checked", &self.checked, "is not a date", "YYYY-MM-DD");
        }
        let mut all = self.clone();
        all.walk(&mut |place, figure| {
            c.under(place.path.clone(), |c| figure.check(c, place.measure));
        });
        c.each("group", &self.groups, |c, group| group.check(c));
        c.each("allowance", &self.allowances, |c, one| one.check(c));
        for (name, share) in [
            ("driven_share", &self.driven_share),
            ("steered_share", &self.steered_share),
        ] {
            c.range_if(name, share.as_ref().map(|s| s.least), 0.0, 1.0);
        }
        if let Some(bridge) = &self.bridge {
            c.under("bridge", |c| bridge.check(c));
        }
    }

    /// True when trucks have a gross weight of their own, also while they pull.
    #[must_use]
    pub fn has_own_truck_limit(&self) -> bool {
        self.gross.iter().any(|g| g.of == Some(Of::MotorVehicle))
    }

    /// Who says a figure: itself, else the whole law.
    #[must_use]
    pub fn source_of<'a>(&'a self, figure: &'a Figure) -> &'a Source {
        figure.source.as_ref().unwrap_or(&self.source)
    }

    /// The class and step that these axles fall under: how many, of what, over which length from first
    /// to last, and with which least distance between neighbours (mm).
    #[must_use]
    pub fn step(
        &self,
        axles: u32,
        of: Option<Of>,
        spread_mm: f64,
        between_mm: f64,
    ) -> Option<(&Group, &Step)> {
        self.groups.iter().find_map(|group| {
            let fits = group.axles.is_none_or(|n| n == axles)
                && (group.of.is_none() || group.of == of)
                && axles > 1;
            let step = group.step(match group.measured {
                Measured::FirstToLast => spread_mm,
                Measured::Between => between_mm,
            });
            step.filter(|_| fits).map(|step| (group, step))
        })
    }
}
