//! The planner's answers beside the hand calculation.

use super::by_hand::{Laden, Scenario, Weighed, Wrong};
use axlewright_core::assessment::Assessment;
use axlewright_core::clearance::{Gap, State, Thing};
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, CaseLoads};
use axlewright_core::plan::Plan;
use axlewright_core::vehicle::Aboard;
use std::collections::BTreeSet;
use std::path::Path;

pub fn read(name: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(name);
    Plan::from_json(name, &std::fs::read_to_string(path).unwrap()).unwrap()
}

pub fn assess(plan: &Plan) -> Assessment {
    let assessment = Assessment::of(plan, &Library::shipped()).unwrap();
    assert!(assessment.answers.vehicle.problems.is_empty());
    assessment
}

#[track_caller]
pub fn close(what: &str, found: f64, wanted: f64, within: f64) {
    let miss = (found - wanted).abs();
    assert!(
        miss <= within,
        "{what}: found {found:.2}, by hand {wanted} within {within}"
    );
}

pub fn case(assessment: &Assessment, case: Case) -> &CaseLoads {
    assessment
        .answers
        .loads
        .case(case)
        .unwrap_or_else(|| panic!("no case {case:?}"))
}

/// The heaviest case with payload: behind a tractor, else on the truck.
pub fn laden(assessment: &Assessment) -> &CaseLoads {
    let loads = &assessment.answers.loads;
    loads
        .case(Case::Coupled)
        .or_else(|| loads.case(Case::Laden))
        .unwrap()
}

pub fn group_kg(loads: &CaseLoads, id: &str) -> f64 {
    loads
        .groups
        .iter()
        .find(|g| g.id == id)
        .unwrap_or_else(|| panic!("no group {id}"))
        .load_kg
}

/// Axle loads of a case. The wrong version of the tractor slides the fifth wheel; the hand figures
/// leave its own mass behind, and `shift` says how much that moves from rear to front.
pub fn axles(
    what: &str,
    groups: &[String; 2],
    found: &CaseLoads,
    wanted: [f64; 2],
    shift: f64,
    within: f64,
) {
    close(
        &format!("{what}, {}", groups[0]),
        group_kg(found, &groups[0]),
        wanted[0] + shift,
        within,
    );
    close(
        &format!("{what}, {}", groups[1]),
        group_kg(found, &groups[1]),
        wanted[1] - shift,
        within,
    );
    let sum: f64 = found.groups.iter().map(|g| g.load_kg).sum();
    let carried = found.truck.mass_kg + found.kingpin_kg.unwrap_or(0.0);
    assert!(
        (sum - carried).abs() <= 1e-9 * carried,
        "{what}: axles {sum}, mass {carried}"
    );
}

impl Scenario {
    pub fn weighed(&self, what: &str, found: &CaseLoads, wanted: &Weighed, within: f64) {
        let shift = wanted.slide_shifts_kg.unwrap_or(0.0);
        axles(what, &self.groups, found, wanted.loads_kg, shift, within);
        if let Some(mass) = wanted.mass_kg {
            close(&format!("{what}, mass"), found.truck.mass_kg, mass, within);
        }
    }

    pub fn loaded(&self, what: &str, found: &CaseLoads, wanted: &Laden, within: f64) {
        let shift = wanted.slide_shifts_kg.unwrap_or(0.0);
        axles(what, &self.groups, found, wanted.loads_kg, shift, within);
        let figures = [
            (
                "trailer axles",
                found.trailer_axles_kg,
                wanted.trailer_axles_kg,
            ),
            ("kingpin", found.kingpin_kg, wanted.kingpin_kg),
            (
                "gross",
                Some(found.gross_kg),
                wanted.gross_kg.or(wanted.gvw_kg),
            ),
        ];
        for (name, found, wanted) in figures {
            if let Some(wanted) = wanted {
                close(&format!("{what}, {name}"), found.unwrap(), wanted, within);
            }
        }
    }

    /// Weights of the truck at every stage, and the sums of what went off and on.
    pub fn weights(&self, within: f64) {
        let assessment = assess(&read(&self.plan));
        self.weighed("donor", case(&assessment, Case::Donor), &self.donor, within);
        self.weighed(
            "stripped",
            case(&assessment, Case::Stripped),
            &self.stripped,
            within,
        );
        self.weighed("curb", case(&assessment, Case::Unladen), &self.curb, within);
        let sum = |kinds: &[Aboard]| {
            let masses = &assessment.answers.vehicle.masses;
            let of: Vec<_> = masses
                .iter()
                .filter(|m| kinds.contains(&m.aboard))
                .collect();
            let mass: f64 = of.iter().map(|m| m.mass_kg * m.fill).sum();
            let mean = |pick: fn(&axlewright_core::geometry::Point) -> f64| {
                of.iter()
                    .map(|m| m.mass_kg * m.fill * pick(&m.at))
                    .sum::<f64>()
                    / mass
            };
            (mass, mean(|p| p.x), mean(|p| p.y), mean(|p| p.z))
        };
        let (mass, x, ..) = sum(&[Aboard::Stripped]);
        close("removed", -mass, self.removed.mass_kg, within);
        close("removed, x", x, self.removed.x_mm, 1.0);
        let (mass, x, y, z) = sum(&[Aboard::Part, Aboard::Contents]);
        close("added", mass, self.added.mass_kg, within);
        close("added, x", x, self.added.x_mm, 1.0);
        close("added, y", y, self.added.y_mm.unwrap(), 1.0);
        close("added, z", z, self.added.z_mm.unwrap(), 1.0);
    }

    /// Payload at each limit that the hand calculation names, and the loads at the smallest.
    pub fn payload(&self, within: f64) {
        let mut plan = read(&self.plan);
        let assessment = assess(&plan);
        let capacity = assessment.answers.capacity.as_ref().unwrap();
        for (limit, wanted) in &self.payload_limits_kg {
            // One kilogram on the steer axle is ten of payload: its figure is as coarse as that.
            let within = if *wanted > 30_000.0 {
                5.0 * within
            } else {
                within
            };
            close(
                &format!("payload at {limit}"),
                payload_at(&assessment, limit),
                *wanted,
                within,
            );
        }
        let governing = capacity.governing().unwrap();
        let by_hand = self.payload_limits_kg[&self.governed_by];
        close("governing payload", governing.payload_kg, by_hand, within);
        assert_eq!(governing.name, name_of(&assessment, &self.governed_by));
        self.carrying(&mut plan, &self.at_limit, within);
        if let Some(target) = &self.at_target {
            self.carrying(&mut plan, target, within);
        }
    }

    pub fn carrying(&self, plan: &mut Plan, wanted: &Laden, within: f64) {
        carry(plan, wanted.payload_kg);
        let assessment = assess(plan);
        let found = laden(&assessment);
        self.loaded(
            &format!("with {} kg", wanted.payload_kg),
            found,
            wanted,
            within,
        );
        for (index, margin) in wanted.margins_kg.iter().flatten().enumerate() {
            let id = &self.groups[index];
            let limits = assessment
                .answers
                .road
                .limits
                .iter()
                .find(|l| &l.id == id)
                .unwrap();
            let room = limits.lowest().unwrap().kg - group_kg(found, id);
            close(&format!("margin of {id}"), room, *margin, within);
        }
        if let Some(margin) = wanted.gvw_margin_kg {
            let gvwr = assessment.answers.vehicle.chassis.ratings.gvwr_kg.unwrap();
            close("margin of GVWR", gvwr - found.truck.mass_kg, margin, within);
        }
    }

    /// Most payload over all positions of the slider, in steps of 1 mm up to the given end.
    pub fn best_position(&self, up_to: f64) -> (f64, f64) {
        let mut plan = read(&self.plan);
        let fw = assess(&plan)
            .answers
            .vehicle
            .chassis
            .fifth_wheel
            .clone()
            .unwrap();
        let mut best = (0.0, f64::NEG_INFINITY);
        let mut ahead = fw.ahead_min_mm;
        while ahead <= up_to.min(fw.ahead_max_mm) {
            plan.changes.fifth_wheel_ahead_mm = Some(ahead);
            let vehicle =
                axlewright_core::vehicle::Vehicle::resolve(&plan, &LIBRARY.with(Clone::clone))
                    .unwrap();
            let road = axlewright_core::assessment::Road::of(&vehicle);
            let bounds = axlewright_core::assessment::Bounds::of(&vehicle, &road).unwrap();
            let capacity = axlewright_core::assessment::capacity(&bounds).unwrap();
            if capacity.payload_kg() > best.1 + 1e-6 {
                best = (ahead, capacity.payload_kg());
            }
            ahead += 1.0;
        }
        best
    }

    /// Largest position, to 1 mm, at which the nose keeps its distance from everything, or only from
    /// the parts of the plan.
    pub fn swing_allows(&self, only_parts: bool) -> f64 {
        let mut plan = read(&self.plan);
        let fw = assess(&plan)
            .answers
            .vehicle
            .chassis
            .fifth_wheel
            .clone()
            .unwrap();
        let mut swings = |ahead: f64| {
            plan.changes.fifth_wheel_ahead_mm = Some(ahead);
            let gaps = assess(&plan).answers.clearances.gaps;
            gaps.iter().all(|g| {
                let counts =
                    g.state == State::Swing && (!only_parts || matches!(g.first, Thing::Part(_)));
                !counts || g.margin_mm() >= -0.05
            })
        };
        let (mut low, mut high) = (fw.ahead_min_mm, fw.ahead_max_mm + 1.0);
        while high - low > 1.0 {
            let middle = f64::midpoint(low, high).round();
            if swings(middle) {
                low = middle
            } else {
                high = middle
            }
        }
        low
    }
}

thread_local! {
    static LIBRARY: Library = Library::shipped();
}

pub fn carry(plan: &mut Plan, kg: f64) {
    if let Some(trailer) = &mut plan.loads.trailer {
        trailer.payload_kg = kg;
    }
    if let Some(payload) = &mut plan.loads.payload {
        payload.mass_kg = kg;
    }
}

/// The planner's name of a limit of the hand calculation.
pub fn name_of(assessment: &Assessment, limit: &str) -> String {
    match limit {
        "trailer" => "trailer axles".to_owned(),
        "gross" => "gross weight".to_owned(),
        "gvwr" => "truck".to_owned(),
        group => {
            let limits = assessment
                .answers
                .road
                .limits
                .iter()
                .find(|l| l.id == group);
            limits
                .unwrap_or_else(|| panic!("no group {group}"))
                .name
                .clone()
        }
    }
}

pub fn payload_at(assessment: &Assessment, limit: &str) -> f64 {
    let name = name_of(assessment, limit);
    let capacity = assessment.answers.capacity.as_ref().unwrap();
    let row = capacity.rows.iter().find(|row| row.name == name);
    row.unwrap_or_else(|| panic!("no limit {name}")).payload_kg
}

/// Everything that fails, as "check: subject".
pub fn fails(assessment: &Assessment) -> BTreeSet<String> {
    assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails)
        .map(|f| format!("{}: {}", f.check, f.subject))
        .collect()
}

pub fn exactly(assessment: &Assessment, wanted: &[&str]) {
    let wanted: BTreeSet<String> = wanted.iter().map(|w| (*w).to_owned()).collect();
    assert_eq!(fails(assessment), wanted);
}

pub fn gap<'a>(assessment: &'a Assessment, state: State, a: &str, b: &str) -> &'a Gap {
    let gaps = &assessment.answers.clearances.gaps;
    gaps.iter()
        .find(|g| {
            let names = (g.first.name(), g.second.name());
            g.state == state && (names == (a, b) || names == (b, a))
        })
        .unwrap_or_else(|| panic!("no gap {state:?} {a} {b}"))
}

/// Every finding that the wrong version names, with the gap and the clearance of the hand list.
pub fn named_gaps(wrong: &Wrong, assessment: &Assessment) {
    for named in &wrong.findings {
        if let Some(wanted) = named.gap_mm {
            let (a, b) = (&named.parts[0], &named.parts[1]);
            let state = [State::Travel, State::Parts, State::Fixed]
                .into_iter()
                .find(|state| {
                    assessment.answers.clearances.gaps.iter().any(|g| {
                        let names = [g.first.name(), g.second.name()];
                        g.state == *state
                            && names.contains(&a.as_str())
                            && names.contains(&b.as_str())
                    })
                });
            let gap = gap(assessment, state.unwrap(), a, b);
            close(&format!("{a} and {b}"), gap.distance_mm, wanted, 0.5);
            close(
                &format!("{a} and {b}, asked"),
                gap.required_mm,
                named.want_mm,
                0.0,
            );
        }
        if let Some(wanted) = named.behind_cab_mm {
            let reach = assessment.answers.clearances.extents.behind_cab.iter();
            let found = reach
                .filter(|r| r.tag == named.parts[0])
                .map(|r| r.mm)
                .next()
                .unwrap();
            close("behind the cab", found, wanted, 0.5);
            let asked = assessment.answers.vehicle.chassis.cab.motion_clearance_mm;
            close("behind the cab, asked", asked, named.want_mm, 0.0);
        }
    }
}
