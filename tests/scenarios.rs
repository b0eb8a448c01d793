//! Three whole conversions against an independent calculation by hand (`tests/cases/scenarios.toml`),
//! and their "wrong" versions: which findings fail, exactly, and why each of them does.
//!
//! *Hand.* The file's figures are rounded to whole kilograms and millimetres.

#![allow(clippy::unwrap_used, clippy::panic)] // tests

use axlewright_core::assessment::Assessment;
use axlewright_core::clearance::{Gap, State, Thing};
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, CaseLoads};
use axlewright_core::plan::Plan;
use axlewright_core::vehicle::Aboard;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[expect(dead_code, reason = "for the reader")]
    known: String,
    tolerance_kg: f64,
    scenario: Vec<Scenario>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Scenario {
    plan: String,
    groups: [String; 2],
    donor: Weighed,
    removed: Sum,
    stripped: Weighed,
    added: Sum,
    curb: Weighed,
    payload_limits_kg: BTreeMap<String, f64>,
    governed_by: String,
    at_limit: Laden,
    at_target: Option<Laden>,
    best_fifth_wheel: Option<Slider>,
    best_fifth_wheel_with_swing: Option<Slider>,
    clear: bool,
    wrong: Vec<Wrong>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Weighed {
    loads_kg: [f64; 2],
    mass_kg: Option<f64>,
    slide_shifts_kg: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sum {
    mass_kg: f64,
    x_mm: f64,
    y_mm: Option<f64>,
    z_mm: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Laden {
    payload_kg: f64,
    loads_kg: [f64; 2],
    trailer_axles_kg: Option<f64>,
    kingpin_kg: Option<f64>,
    gross_kg: Option<f64>,
    gvw_kg: Option<f64>,
    margins_kg: Option<[f64; 2]>,
    gvw_margin_kg: Option<f64>,
    slide_shifts_kg: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Slider {
    ahead_mm: f64,
    payload_kg: f64,
    swing_allows_mm: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wrong {
    plan: String,
    curb: Weighed,
    laden: Option<Laden>,
    over: Option<Over>,
    mistaken_payload_kg: Option<f64>,
    findings: Vec<Named>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Over {
    group: String,
    legal_kg: f64,
    rating_kg: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Named {
    parts: Vec<String>,
    gap_mm: Option<f64>,
    nose_swing_mm: Option<f64>,
    behind_cab_mm: Option<f64>,
    want_mm: f64,
}

fn file() -> File {
    toml::from_str(include_str!("cases/scenarios.toml")).unwrap()
}

fn scenario(plan: &str) -> (Scenario, f64) {
    let file = file();
    let tolerance = file.tolerance_kg;
    let found = file.scenario.into_iter().find(|s| s.plan == plan);
    (
        found.unwrap_or_else(|| panic!("no scenario {plan}")),
        tolerance,
    )
}

fn read(name: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(name);
    Plan::from_json(name, &std::fs::read_to_string(path).unwrap()).unwrap()
}

fn assess(plan: &Plan) -> Assessment {
    let assessment = Assessment::of(plan, &Library::shipped()).unwrap();
    assert!(assessment.answers.vehicle.problems.is_empty());
    assessment
}

#[track_caller]
fn close(what: &str, found: f64, wanted: f64, within: f64) {
    let miss = (found - wanted).abs();
    assert!(
        miss <= within,
        "{what}: found {found:.2}, by hand {wanted} within {within}"
    );
}

fn case(assessment: &Assessment, case: Case) -> &CaseLoads {
    assessment
        .answers
        .loads
        .case(case)
        .unwrap_or_else(|| panic!("no case {case:?}"))
}

/// The heaviest case with payload: behind a tractor, else on the truck.
fn laden(assessment: &Assessment) -> &CaseLoads {
    let loads = &assessment.answers.loads;
    loads
        .case(Case::Coupled)
        .or_else(|| loads.case(Case::Laden))
        .unwrap()
}

fn group_kg(loads: &CaseLoads, id: &str) -> f64 {
    loads
        .groups
        .iter()
        .find(|g| g.id == id)
        .unwrap_or_else(|| panic!("no group {id}"))
        .load_kg
}

/// Axle loads of a case. The wrong version of the tractor slides the fifth wheel; the hand figures
/// leave its own mass behind, and `shift` says how much that moves from rear to front.
fn axles(
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
    fn weighed(&self, what: &str, found: &CaseLoads, wanted: &Weighed, within: f64) {
        let shift = wanted.slide_shifts_kg.unwrap_or(0.0);
        axles(what, &self.groups, found, wanted.loads_kg, shift, within);
        if let Some(mass) = wanted.mass_kg {
            close(&format!("{what}, mass"), found.truck.mass_kg, mass, within);
        }
    }

    fn loaded(&self, what: &str, found: &CaseLoads, wanted: &Laden, within: f64) {
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
    fn weights(&self, within: f64) {
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
    fn payload(&self, within: f64) {
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

    fn carrying(&self, plan: &mut Plan, wanted: &Laden, within: f64) {
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
    fn best_position(&self, up_to: f64) -> (f64, f64) {
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
            let limits = axlewright_core::assessment::group_limits(&vehicle);
            let capacity = axlewright_core::assessment::capacity(&vehicle, &limits).unwrap();
            if capacity.payload_kg() > best.1 + 1e-6 {
                best = (ahead, capacity.payload_kg());
            }
            ahead += 1.0;
        }
        best
    }

    /// Largest position, to 1 mm, at which the nose keeps its distance from everything, or only from
    /// the parts of the plan.
    fn swing_allows(&self, only_parts: bool) -> f64 {
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

fn carry(plan: &mut Plan, kg: f64) {
    if let Some(trailer) = &mut plan.loads.trailer {
        trailer.payload_kg = kg;
    }
    if let Some(payload) = &mut plan.loads.payload {
        payload.mass_kg = kg;
    }
}

/// The planner's name of a limit of the hand calculation.
fn name_of(assessment: &Assessment, limit: &str) -> String {
    match limit {
        "trailer" => "trailer axles".to_owned(),
        "gross" => "gross weight".to_owned(),
        "gvwr" => "truck".to_owned(),
        group => {
            let limits = assessment.answers.limits.iter().find(|l| l.id == group);
            limits
                .unwrap_or_else(|| panic!("no group {group}"))
                .name
                .clone()
        }
    }
}

fn payload_at(assessment: &Assessment, limit: &str) -> f64 {
    let name = name_of(assessment, limit);
    let capacity = assessment.answers.capacity.as_ref().unwrap();
    let row = capacity.rows.iter().find(|row| row.name == name);
    row.unwrap_or_else(|| panic!("no limit {name}")).payload_kg
}

/// Everything that fails, as "check: subject".
fn fails(assessment: &Assessment) -> BTreeSet<String> {
    assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails)
        .map(|f| format!("{}: {}", f.check, f.subject))
        .collect()
}

fn exactly(assessment: &Assessment, wanted: &[&str]) {
    let wanted: BTreeSet<String> = wanted.iter().map(|w| (*w).to_owned()).collect();
    assert_eq!(fails(assessment), wanted);
}

fn gap<'a>(assessment: &'a Assessment, state: State, a: &str, b: &str) -> &'a Gap {
    let gaps = &assessment.answers.clearances.gaps;
    gaps.iter()
        .find(|g| {
            let names = (g.first.name(), g.second.name());
            g.state == state && (names == (a, b) || names == (b, a))
        })
        .unwrap_or_else(|| panic!("no gap {state:?} {a} {b}"))
}

const NOSE: &str = "swing of the trailer nose";

const TRACTOR: &str = "gullwharf-drayage.json";
const EXTENDER: &str = "prairie-loop.json";
const BOX_TRUCK: &str = "millbrook-parcel.json";

#[test]
fn battery_tractor_weighs_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(TRACTOR);
    scenario.weights(within);
}

#[test]
fn range_extender_weighs_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(EXTENDER);
    scenario.weights(within);
}

#[test]
fn box_truck_weighs_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(BOX_TRUCK);
    scenario.weights(within);
}

#[test]
fn battery_tractor_carries_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(TRACTOR);
    scenario.payload(within);
}

#[test]
fn range_extender_carries_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(EXTENDER);
    scenario.payload(within);
}

#[test]
fn box_truck_carries_what_the_hand_calculation_says() {
    let (scenario, within) = scenario(BOX_TRUCK);
    scenario.payload(within);
}

/// The three plans as they stand: nothing fails.
#[test]
fn the_right_plans_have_no_finding_that_fails() {
    for name in [TRACTOR, EXTENDER, BOX_TRUCK] {
        assert!(scenario(name).0.clear);
        exactly(&assess(&read(name)), &[]);
    }
}

/// The hand calculation leaves the 120 kg of the plate where they were; here they slide along. The
/// best position is therefore 2 mm lower and the payload there within 4 kg; at the end that the
/// swing allows, 40 mm ahead of the plan, the slid plate takes 120 x 40 / 4699 = 1 kg off the drive
/// axles, which is 2 to 3 kg of payload.
#[test]
fn best_fifth_wheel_positions_of_the_battery_tractor() {
    let (scenario, _) = scenario(TRACTOR);
    let hand = scenario.best_fifth_wheel.as_ref().unwrap();
    let (ahead, payload) = scenario.best_position(f64::INFINITY);
    close("best position", ahead, hand.ahead_mm - 2.0, 1.0);
    close("payload there", payload, hand.payload_kg, 5.0);
    let hand = scenario.best_fifth_wheel_with_swing.as_ref().unwrap();
    close(
        "swing allows",
        scenario.swing_allows(false),
        hand.swing_allows_mm.unwrap(),
        1.0,
    );
    let (_, payload) = scenario.best_position(hand.ahead_mm);
    close("payload with swing", payload, hand.payload_kg + 2.5, 1.0);
}

/// The trailer's axles govern from here on: a band of positions is equally good, and both
/// calculations name the first of it, on steps of 5 mm by hand.
///
/// How far the swing lets the fifth wheel go: by hand from the rear face of the brake resistor, fore
/// and aft. Its corners stand 175 mm beside the centre line, where the circle is 10 mm farther, so
/// that our shortest distance allows up to that much more. But the air tanks of the donor, which
/// stand on the deck behind it and are in no hand list of parts, bind first, at 512 mm.
#[test]
fn best_fifth_wheel_positions_of_the_range_extender() {
    let (scenario, within) = scenario(EXTENDER);
    let hand = scenario.best_fifth_wheel.as_ref().unwrap();
    let (ahead, payload) = scenario.best_position(f64::INFINITY);
    close("payload there", payload, hand.payload_kg, within);
    assert!(
        ahead <= hand.ahead_mm && ahead > hand.ahead_mm - 40.0,
        "{ahead}"
    );
    let swing = scenario.best_fifth_wheel_with_swing.as_ref().unwrap();
    let by_hand = swing.swing_allows_mm.unwrap();
    let parts = scenario.swing_allows(true);
    assert!(
        parts >= by_hand - 1.0 && parts <= by_hand + 12.0,
        "{parts}, by hand {by_hand}"
    );
    close(
        "swing allows with the chassis",
        scenario.swing_allows(false),
        512.0,
        1.0,
    );
    assert!(swing.ahead_mm <= swing.swing_allows_mm.unwrap());
}

/// Every finding that the wrong version names, with the gap and the clearance of the hand list.
fn named_gaps(wrong: &Wrong, assessment: &Assessment) {
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

/// Named by hand: B5 against D2, and the nose against D3, D4, C2 and R1.
///
/// The hand figure of the nose is the room fore and aft on the truck's centre line, from the part's
/// rear face to the foremost point of the circle. Ours is the shortest distance to that circle: the
/// same for C2, which stands on the centre line, and more for what stands to the side (D3 and D4 by
/// 89 and 76 mm) or above it (R1). All four still miss the 102 mm, as named.
///
/// Found besides, and right: in the rear overhang B5 reaches beyond the end of the frame, and into
/// the circle of the landing legs. The sketch moved it there without looking.
#[test]
fn the_sales_sketch_raises_the_named_findings_and_two_more() {
    let (scenario, within) = scenario(TRACTOR);
    let wrong = &scenario.wrong[0];
    let assessment = assess(&read(&wrong.plan));
    scenario.weighed(
        "curb",
        case(&assessment, Case::Unladen),
        &wrong.curb,
        within,
    );
    let hand = wrong.laden.as_ref().unwrap();
    let mut plan = read(&wrong.plan);
    carry(&mut plan, hand.payload_kg);
    scenario.loaded("laden", laden(&assess(&plan)), hand, within);
    named_gaps(wrong, &assessment);
    exactly(
        &assessment,
        &[
            "suspension-travel: D2.B5",
            "trailer-swing: D3.swing of the trailer nose",
            "trailer-swing: D4.swing of the trailer nose",
            "trailer-swing: C2.swing of the trailer nose",
            "trailer-swing: R1.swing of the trailer nose",
            "front-and-rear-end: B5.rear end",
            "landing-legs: B5.landing legs",
        ],
    );
    let pin = assessment.answers.vehicle.trailer.as_ref().unwrap();
    for named in wrong.findings.iter().filter(|n| n.nose_swing_mm.is_some()) {
        let tag = &named.parts[0];
        let item = assessment.answers.vehicle.item(tag).unwrap();
        // The hand figure from the placed part, then ours beside it.
        let fore_and_aft = pin.kingpin.x - pin.swing_radius_mm() - item.bounds.max.x;
        close(tag, fore_and_aft, named.nose_swing_mm.unwrap(), 1.0);
        let gap = gap(&assessment, State::Swing, tag, NOSE);
        close(
            &format!("{tag}, asked"),
            gap.required_mm,
            named.want_mm,
            0.0,
        );
        if tag == "C2" {
            close(tag, gap.distance_mm, fore_and_aft, 0.5);
        } else {
            assert!(
                gap.distance_mm >= fore_and_aft - 0.5,
                "{tag}: {}",
                gap.distance_mm
            );
        }
    }
}

/// Named by hand, and nothing besides: the catalyst against the right pack, the gas rack against the
/// cab shell, and the rack too near for a cab that moves on its springs.
#[test]
fn the_tight_catalyst_raises_the_named_findings_and_no_other() {
    let (scenario, within) = scenario(EXTENDER);
    let wrong = &scenario.wrong[0];
    let assessment = assess(&read(&wrong.plan));
    scenario.weighed(
        "curb",
        case(&assessment, Case::Unladen),
        &wrong.curb,
        within,
    );
    named_gaps(wrong, &assessment);
    exactly(
        &assessment,
        &["part-gap: X1.B3", "frame-gap: T1.cab", "behind-cab: T1"],
    );
}

/// Named by hand: no clearance, but the rear axle over the law and over its rating, so that the
/// payload is less than promised.
///
/// Found besides, and right: the suspension of that axle has the same rating as the axle; and the
/// third pack hangs on the left with nothing on the right, 11 % apart at the rear axle.
#[test]
fn the_third_pack_overloads_the_rear_axle_and_makes_it_lopsided() {
    let (scenario, within) = scenario(BOX_TRUCK);
    let wrong = &scenario.wrong[0];
    let assessment = assess(&read(&wrong.plan));
    scenario.weighed(
        "curb",
        case(&assessment, Case::Unladen),
        &wrong.curb,
        within,
    );
    scenario.loaded(
        "laden",
        laden(&assessment),
        wrong.laden.as_ref().unwrap(),
        within,
    );
    exactly(
        &assessment,
        &[
            "road-axle: rear",
            "axle-rating: rear",
            "suspension-rating: rear",
            "payload: payload",
            "side-balance: rear",
        ],
    );
    let over = wrong.over.as_ref().unwrap();
    let limit = |check: &str| {
        let found = assessment
            .findings
            .iter()
            .find(|f| f.check == check && f.subject == over.group);
        found.unwrap().limit.unwrap().value
    };
    close("legal limit", limit("road-axle"), over.legal_kg, within);
    close("rating", limit("axle-rating"), over.rating_kg, within);
    assert!(wrong.findings.is_empty());
}

/// Without the road law the same truck seems to carry more than half a tonne more: the mistake of
/// which the scenario warns. The planner then says that the law was not looked at.
#[test]
fn without_the_road_law_the_box_truck_seems_to_carry_more_and_the_plan_says_so() {
    let (scenario, within) = scenario(BOX_TRUCK);
    let mut plan = read(BOX_TRUCK);
    plan.law.regime = None;
    let assessment = assess(&plan);
    let mistaken = scenario.wrong[0].mistaken_payload_kg.unwrap();
    close(
        "mistaken payload",
        payload_at(&assessment, "rear"),
        mistaken,
        within,
    );
    let said = assessment
        .findings
        .iter()
        .find(|f| f.check == "road-axle")
        .unwrap();
    assert_eq!(said.severity, Severity::NotAssessed);
}
