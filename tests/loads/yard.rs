//! A bare two-axle chassis, boxes of any mass, and the way to an assessment: what the tests build
//! their cases from.
#![allow(dead_code)] // each test binary uses its part of it

use axlewright_core::assessment::Assessment;
use axlewright_core::chassis::{AxleTicket, Chassis, FifthWheel, Trailer};
use axlewright_core::findings::Finding;
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, CaseLoads, GroupLoad, Loads, loads};
use axlewright_core::part::Part;
use axlewright_core::plan::{
    Changes, ChassisChoice, FrameChoice, LawChoice, Loads as Cargo, Place, Placed, Plan,
    TrailerLoad,
};
use axlewright_core::quantity::Units;
use axlewright_core::vehicle::Vehicle;

pub const KG_PER_LB: f64 = 0.453_592_37;
pub const MM_PER_IN: f64 = 25.4;

/// Front axle at 0, one rear axle at 5,000; cab back at 1,200, frame end at 6,500; rails 860 wide,
/// 740 to 1,000 high. No hardware, no obstacles, 3,000 kg on each axle.
const BARE: &str = r#"
format = 1
id = "bare"
name = "Bare chassis of the tests"
class = "rigid"
source = { basis = "estimate", document = "invented for a test" }
driver_seat = { x_mm = 800, y_mm = 0, z_mm = 1800 }
rail = { depth_mm = 260, flange_mm = 80, wall_mm = 8, yield_mpa = 700, front_x_mm = -1200 }
ratings = { gvwr_kg = 90000, gcwr_kg = 200000 }

[dimensions]
wheelbase_mm = 5000
bumper_to_axle_mm = 1300
bumper_to_back_of_cab_mm = 2500
after_frame_mm = 1500
overall_width_mm = 2500
frame_width_mm = 860
frame_top_laden_mm = 1000
frame_top_unladen_mm = 1010

[cab]
kind = "conventional"
front_x_mm = 0
width_mm = 2200
floor_z_mm = 1250
roof_z_mm = 3000
hood_top_z_mm = 1800
steps_end_x_mm = 900
motion_clearance_mm = 75
opening = [{ box = { from_mm = [-2400, -1000, 500], to_mm = [-1300, 1000, 2300] } }]

[[axle]]
id = "axle-1"
kind = "steer"
x_mm = 0
gawr_kg = 40000
track_mm = 2000
unsprung_kg = 500
unsprung_z_mm = 500
steer_angle_deg = 40
tyres = { size = "test", dual = false, loaded_radius_mm = 480, diameter_mm = 1000, width_mm = 300, rating_axle_kg = 40000 }
suspension = { kind = "leaf", rate_n_per_mm = 400, jounce_mm = 100, rebound_mm = 80, rating_kg = 40000 }

[[axle]]
id = "axle-2"
kind = "drive"
x_mm = 5000
gawr_kg = 40000
track_mm = 1800
unsprung_kg = 900
unsprung_z_mm = 500
tyres = { size = "test", dual = true, loaded_radius_mm = 480, diameter_mm = 1000, width_mm = 280, dual_spacing_mm = 340, rating_axle_kg = 40000 }
suspension = { kind = "air", rate_n_per_mm = 400, jounce_mm = 100, rebound_mm = 80, rating_kg = 40000 }

[[group]]
id = "front"
name = "front axle"
axles = ["axle-1"]
share = "equal"

[[group]]
id = "rear"
name = "rear axle"
axles = ["axle-2"]
share = "equal"

[ticket]
aboard = "nothing"
resolution_kg = 0
cg_z_mm = 800
axle = [{ group = "front", load_kg = 3000 }, { group = "rear", load_kg = 3000 }]
source = { basis = "estimate", document = "invented for a test" }
"#;

/// Trailer with a nose 914 ahead of its kingpin, 2,590 wide; legs 2,700 behind it.
const TRAILER: &str = r#"
format = 1
id = "trailer"
name = "Trailer of the tests"
kingpin_to_axles_mm = 12000
axle_spacing_mm = 1245
axle_count = 2
tyre_diameter_mm = 1000
axles_rating_kg = 80000
tare_kg = 6000
tare_on_kingpin = 0.5
payload_max_kg = 100000
load_cg = 0.5
tare_cg_z_mm = 1700
load_cg_z_mm = 2300
nose_ahead_mm = 914
rear_mm = 15000
width_mm = 2590
nose_z_mm = 1200
top_z_mm = 4100
swing_clearance_mm = 102
legs = { behind_kingpin_mm = 2700, width_mm = 2000, bottom_z_mm = 360, clearance_mm = 100 }
source = { basis = "estimate", document = "invented for a test" }
"#;

pub fn bare() -> Chassis {
    toml::from_str(BARE).unwrap()
}

/// A plan on the bare chassis whose rear axle is listed as coming off, and has come off.
pub fn without_axle() -> Plan {
    let mut chassis = bare();
    let text = r#"
        id = "rear-axle"
        name = "Rear axle"
        mass_kg = 0
        cg = { x_mm = 5000, y_mm = 0, z_mm = 500 }
        unsprung_axle = "axle-2"
        drive_axle = true
    "#;
    chassis.hardware.push(toml::from_str(text).unwrap());
    let mut plan = plan(chassis);
    plan.changes.stripped = vec!["rear-axle".to_owned()];
    plan
}

/// The bare chassis with another wheelbase; the frame still ends 1,500 behind the axle.
pub fn with_wheelbase(mm: f64) -> Chassis {
    let mut chassis = bare();
    chassis.dimensions.wheelbase_mm = mm;
    chassis.axles[1].x_mm = mm;
    chassis
}

/// The bare chassis as a tractor, its kingpin this far ahead of the rear axle.
pub fn tractor(wheelbase_mm: f64, ahead_mm: f64) -> Chassis {
    let mut chassis = with_wheelbase(wheelbase_mm);
    chassis.class = axlewright_core::chassis::Class::Tractor;
    chassis.fifth_wheel = Some(FifthWheel {
        ahead_mm,
        ahead_min_mm: -1_000.0,
        ahead_max_mm: 3_000.0,
        step_mm: None,
        top_z_mm: 1_200.0,
        rating_kg: 60_000.0,
        mass_kg: 0.0,
        articulation_deg: 90.0,
    });
    chassis
}

pub fn trailer() -> Trailer {
    toml::from_str(TRAILER).unwrap()
}

pub fn weighed(chassis: &mut Chassis, loads: &[(&str, f64)]) {
    let ticket = chassis.ticket.as_mut().unwrap();
    ticket.axle = loads
        .iter()
        .map(|(group, kg)| AxleTicket {
            group: (*group).to_owned(),
            load_kg: *kg,
            left_kg: None,
            right_kg: None,
        })
        .collect();
}

/// A box part of this kind, mass and size (length, width, height), with nothing asked for.
pub fn part(id: &str, kind: &str, mass_kg: f64, [l, w, h]: [f64; 3]) -> Part {
    let half = w / 2.0;
    let text = format!(
        "id = {id:?}\nname = {id:?}\nkind = {kind:?}\nmass_kg = {mass_kg:?}\n\
         envelope = [{{ box = {{ from_mm = [0.0, {:?}, 0.0], to_mm = [{l:?}, {half:?}, {h:?}] }} }}]",
        -half
    );
    toml::from_str(&text).unwrap()
}

/// A plan on a chassis of its own: nothing stripped, nobody aboard.
pub fn plan(chassis: Chassis) -> Plan {
    Plan {
        format: Plan::FORMAT,
        name: "case".to_owned(),
        chassis: ChassisChoice::Inline(Box::new(chassis)),
        changes: Changes::default(),
        parts: Vec::new(),
        placed: Vec::new(),
        shafts: Vec::new(),
        loads: Cargo::default(),
        law: LawChoice::default(),
        moving: Default::default(),
        frame: FrameChoice::default(),
        duty: Default::default(),
        notes: String::new(),
    }
}

/// Adds a part to the plan with its front face, middle and underside here; its tag is its id.
pub fn put(plan: &mut Plan, part: Part, [x_mm, y_mm, z_mm]: [f64; 3]) {
    put_at(plan, part, Place::Free { x_mm, y_mm, z_mm });
}

pub fn put_at(plan: &mut Plan, part: Part, place: Place) {
    plan.placed.push(
        Placed {
            tag: part.id.clone(),
            part: part.id.clone(),
            place,
            turn: 0,
            fill: None,
            locked: false,
        }
        .into(),
    );
    plan.parts.push(part);
}

pub fn couple(plan: &mut Plan, payload_kg: f64) {
    let id = "trailer".to_owned();
    plan.loads.trailer = Some(TrailerLoad {
        id,
        payload_kg,
        load_cg: None,
        kingpin_to_axles_mm: None,
    });
}

/// The shipped library is not needed: only the test's trailer and the road law.
pub fn library(trailer: Trailer) -> Library {
    let mut library = Library::default();
    library.trailers.insert(trailer.id.clone(), trailer.into());
    library
}

/// Reads the plan as a file first, so that a case that no file could hold is no case.
pub fn read_back(plan: &Plan) -> Plan {
    Plan::from_json("case", &plan.to_json()).unwrap_or_else(|problems| panic!("{problems}"))
}

pub fn resolve_with(plan: &Plan, library: &Library) -> Vehicle {
    let vehicle = Vehicle::resolve(&read_back(plan), library).unwrap();
    assert!(vehicle.problems.is_empty(), "{:?}", vehicle.problems);
    vehicle
}

pub fn resolve(plan: &Plan) -> Vehicle {
    resolve_with(plan, &library(trailer()))
}

pub fn assess_with(plan: &Plan, library: &Library) -> Assessment {
    let assessment = Assessment::of(&read_back(plan), library).unwrap();
    let problems = &assessment.answers.vehicle.problems;
    assert!(problems.is_empty(), "{problems:?}");
    assessment
}

pub fn assess(plan: &Plan) -> Assessment {
    assess_with(plan, &library(trailer()))
}

pub fn loads_of(plan: &Plan) -> Loads {
    loads(&resolve(plan))
}

pub fn case(loads: &Loads, case: Case) -> &CaseLoads {
    loads
        .case(case)
        .unwrap_or_else(|| panic!("no case {case:?}"))
}

pub fn group<'a>(loads: &'a CaseLoads, id: &str) -> &'a GroupLoad {
    loads
        .groups
        .iter()
        .find(|g| g.id == id)
        .unwrap_or_else(|| panic!("no group {id}"))
}

/// Findings of one check about one thing.
pub fn finding<'a>(assessment: &'a Assessment, check: &str, subject: &str) -> &'a Finding {
    assessment
        .findings
        .iter()
        .find(|f| f.check == check && f.subject == subject)
        .unwrap_or_else(|| panic!("no {check} about {subject}: {:#?}", said(assessment)))
}

/// Everything that was found, one line each.
pub fn said(assessment: &Assessment) -> Vec<String> {
    assessment
        .findings
        .iter()
        .map(|f| {
            let words = f.sentence.words(Units::Metric);
            format!("{:?} {} {}: {words}", f.severity, f.check, f.subject)
        })
        .collect()
}

/// Within so much of each other.
#[track_caller]
pub fn close(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "found {found}, wanted {wanted} within {within}"
    );
}
