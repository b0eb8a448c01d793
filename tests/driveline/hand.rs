//! *Hand.* Whole plans: what each check of driveshafts says, and what it says when something is missing.

use super::yard::{assess, bare, close, finding, part, plan, put, said};
use axlewright_core::assessment::Assessment;
use axlewright_core::chassis::{Chassis, InterAxle, Spot};
use axlewright_core::driveline::Ride;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::part::{Motor, Part, Port, ShaftTube};
use axlewright_core::plan::{Plan, ShaftRun};

/// A bare truck with an axle input 700 high at 4,700, inclined by 3 degrees, ratio 4, 100 km/h.
fn chassis() -> Chassis {
    let mut chassis = bare();
    let axle = &mut chassis.axles[1];
    axle.input_x_mm = Some(4_700.0);
    axle.input_z_mm = Some(700.0);
    axle.input_down_deg = Some(3.0);
    axle.ratio = Some(4.0);
    chassis.ratings.top_speed_kmh = Some(100.0);
    chassis
}

fn drive() -> Part {
    let mut drive = part("D1", "central-drive", 300.0, [900.0, 500.0, 400.0]);
    drive.motor = Some(Motor {
        peak_nm: Some(2_000.0),
        max_rpm: Some(4_000.0),
        ratios: vec![3.0, 1.0],
        ..Motor::default()
    });
    drive.output = Some(Port {
        at_mm: [1_000.0, 0.0, 200.0],
    });
    drive
}

fn tube() -> ShaftTube {
    ShaftTube {
        tube_od_mm: Some(110.0),
        tube_id_mm: Some(100.0),
        rating_nm: Some(9_000.0),
        joint_nm: Some(8_000.0),
        joint_max_deg: Some(20.0),
        plunge_mm: Some(60.0),
        ..ShaftTube::default()
    }
}

/// The shaft falls by 100 mm over 1,200: from (3,500; 800) to (4,700; 700).
fn driven(chassis: Chassis, tube: ShaftTube) -> Plan {
    let mut plan = plan(chassis);
    put(&mut plan, drive(), [2_500.0, 0.0, 600.0]);
    let mut shaft = part("SHAFT", "driveshaft", 40.0, [1_200.0, 120.0, 120.0]);
    shaft.shaft = Some(tube);
    plan.parts.push(shaft);
    plan.shafts.push(ShaftRun {
        tag: "D2".to_owned(),
        part: "SHAFT".to_owned(),
        from: "D1".to_owned(),
        to_axle: "axle-2".to_owned(),
        drive_down_deg: Some(3.0),
        bearings: Vec::new(),
    });
    plan
}

fn severity(assessment: &Assessment, check: &str, subject: &str) -> Severity {
    finding(assessment, check, subject).severity
}

#[test]
fn a_shaft_between_parallel_axes_by_hand() {
    let assessment = assess(&driven(chassis(), tube()));
    let shaft = &assessment.answers.driveline.shafts[0];
    let slope = (100.0_f64 / 1_200.0).atan().to_degrees();
    for joint in &shaft.state(Ride::Laden).joints {
        close(joint.angle_deg, slope - 3.0, 1e-9);
        close(joint.plan_deg, 0.0, 1e-12);
    }
    // Empty, the frame is 10 mm higher above the axle.
    let empty = (110.0_f64 / 1_200.0).atan().to_degrees() - 3.0;
    close(shaft.state(Ride::Empty).joints[0].angle_deg, empty, 1e-9);
    // 100 mm up it lies level, 80 mm down it falls by 180.
    close(shaft.state(Ride::Jounce).pieces[0].length_mm, 1_200.0, 1e-9);
    let longest = 1_200.0_f64.hypot(180.0);
    close(shaft.plunge_mm, longest - 1_200.0, 1e-9);
    // 2,000 N·m through 3:1; 4,000 rpm through 1:1; 100 km/h on 480 mm through 4:1.
    close(*shaft.torque_nm.as_ref().unwrap(), 6_000.0, 1e-9);
    let speed = shaft.speed.as_ref().unwrap();
    close(speed.most_rpm, 4_000.0, 1e-9);
    let road = 1e8 / 60.0 / (2.0 * std::f64::consts::PI * 480.0) * 4.0;
    close(speed.road_rpm.unwrap(), road, 1e-6);
    let whirl = shaft.whirl.as_ref().unwrap();
    let critical = 1.21e8 * 110.0_f64.hypot(100.0) / longest.powi(2);
    close(whirl.critical_rpm, critical, 1e-6 * critical);
    for check in ["shaft-speed", "shaft-angle", "shaft-travel", "shaft-ends"] {
        assert_eq!(
            severity(&assessment, check, "D2"),
            Severity::Holds,
            "{check}"
        );
    }
    for check in ["shaft-ripple", "shaft-plunge", "shaft-length"] {
        assert_eq!(
            severity(&assessment, check, "D2"),
            Severity::Holds,
            "{check}"
        );
    }
    // The joints have less room than the tube and stand for both.
    let torque = severity(&assessment, "shaft-torque", "D2.joints");
    assert_eq!(torque, Severity::Holds);
}

/// A change of the plan, and the check that must speak of it.
fn raises(check: &str, subject: &str, wanted: Severity, change: impl FnOnce(&mut Plan)) {
    let mut plan = driven(chassis(), tube());
    change(&mut plan);
    let assessment = assess(&plan);
    let found = assessment
        .findings
        .iter()
        .find(|f| f.check == check && f.subject == subject);
    let found = found.unwrap_or_else(|| panic!("{check}: {:#?}", said(&assessment)));
    assert_eq!(found.severity, wanted, "{check}: {:#?}", said(&assessment));
}

fn tube_of(plan: &mut Plan) -> &mut ShaftTube {
    let shaft = plan.parts.iter_mut().find(|p| p.id == "SHAFT").unwrap();
    shaft.shaft.as_mut().unwrap()
}

fn inline(plan: &mut Plan) -> &mut Chassis {
    match &mut plan.chassis {
        axlewright_core::plan::ChassisChoice::Inline(chassis) => chassis,
        axlewright_core::plan::ChassisChoice::Template(_) => unreachable!(),
    }
}

fn place_drive(plan: &mut Plan, x_mm: f64, y_mm: f64, z_mm: f64) {
    plan.placed[0].place = axlewright_core::plan::Place::Free { x_mm, y_mm, z_mm };
}

#[test]
fn each_check_fails_for_its_own_reason() {
    use Severity::{Caution, Fails};
    raises("shaft-speed", "D2", Fails, |p| {
        tube_of(p).tube_od_mm = Some(40.0);
        tube_of(p).tube_id_mm = Some(34.0);
    });
    raises("shaft-torque", "D2.tube", Fails, |p| {
        tube_of(p).rating_nm = Some(5_900.0)
    });
    raises("shaft-torque", "D2.joints", Fails, |p| {
        tube_of(p).joint_nm = Some(5_900.0)
    });
    raises("shaft-plunge", "D2", Fails, |p| {
        tube_of(p).plunge_mm = Some(13.0)
    });
    raises("shaft-travel", "D2", Fails, |p| {
        tube_of(p).joint_max_deg = Some(5.0)
    });
    // Level drive: 4.8 degrees at the drive and 1.8 at the axle.
    raises("shaft-ends", "D2", Fails, |p| {
        p.shafts[0].drive_down_deg = None
    });
    // Just parallel to the shaft: needles stand still in both.
    raises("shaft-ends", "D2", Caution, |p| {
        p.shafts[0].drive_down_deg = Some(5.0);
        inline(p).axles[1].input_down_deg = Some(5.0);
    });
    raises("shaft-angle", "D2", Fails, |p| {
        place_drive(p, 2_500.0, 250.0, 600.0)
    });
    raises("shaft-ripple", "D2", Fails, |p| {
        p.shafts[0].drive_down_deg = Some(-4.0);
    });
    raises("shaft-length", "D2", Caution, |p| {
        place_drive(p, 2_000.0, 0.0, 600.0)
    });
    raises("shaft-length", "D2", Caution, |p| {
        place_drive(p, 3_280.0, 0.0, 500.0)
    });
    raises("shaft-length", "D2.speed", Caution, |p| {
        inline(p).ratings.top_speed_kmh = None;
    });
    // Rule of thumb by length: axes that meet, 4.8 and 4.8 degrees on 47 inches.
    raises("shaft-angle", "D2", Caution, |p| {
        p.shafts[0].drive_down_deg = Some(0.0);
        inline(p).axles[1].input_down_deg = Some(9.5);
    });
}

#[test]
fn what_is_missing_is_said_and_nothing_passes() {
    let missing = |check: &str, subject: &str, change: fn(&mut Plan)| {
        raises(check, subject, Severity::NotAssessed, change);
    };
    for check in ["shaft-angle", "shaft-travel", "shaft-ends", "shaft-ripple"] {
        missing(check, "D2", |p| inline(p).axles[1].input_down_deg = None);
    }
    missing("shaft-speed", "D2", |p| tube_of(p).tube_id_mm = None);
    missing("shaft-plunge", "D2", |p| tube_of(p).plunge_mm = None);
    missing("shaft-travel", "D2", |p| tube_of(p).joint_max_deg = None);
    missing("shaft-torque", "D2.tube", |p| tube_of(p).rating_nm = None);
    missing("shaft-torque", "D2.joints", |p| tube_of(p).joint_nm = None);
    for (check, subject) in [
        ("shaft-speed", "D2"),
        ("shaft-angle", "D2"),
        ("shaft-ripple", "D2"),
        ("shaft-torque", "D2.tube"),
    ] {
        missing(check, subject, |p| p.parts[0].motor = None);
    }
    missing("shaft-angle", "D1", |p| p.shafts.clear());
}

#[test]
fn a_centre_bearing_makes_two_pieces_and_raises_the_speed() {
    let mut plan = driven(chassis(), tube());
    let one = assess(&plan).answers.driveline.shafts.remove(0);
    plan.shafts[0].bearings = vec![Spot::new(4_100.0, 0.0, 760.0)];
    let assessment = assess(&plan);
    let two = &assessment.answers.driveline.shafts[0];
    assert_eq!(two.state(Ride::Laden).pieces.len(), 2);
    assert_eq!(two.state(Ride::Laden).joints.len(), 3);
    assert!(two.whirl.as_ref().unwrap().safe_rpm > 3.0 * one.whirl.unwrap().safe_rpm);
    // Only the piece at the axle moves.
    let first = two.states.each_ref().map(|s| s.pieces[0].length_mm);
    assert!(first.iter().all(|mm| (mm - first[0]).abs() < 1e-12));
    // The body has two cylinders and the mass of one shaft.
    let item = assessment.answers.vehicle.item("D2").unwrap();
    assert_eq!(item.solids.len(), 2);
    close(item.mass_kg, 40.0, 1e-9);
    // The ends of two pieces are no pair; what is left of all joints is still judged.
    let ends = assessment.findings.iter().any(|f| f.check == "shaft-ends");
    let ripple = assessment
        .findings
        .iter()
        .any(|f| f.check == "shaft-ripple");
    assert!(!ends && ripple);
}

#[test]
fn between_two_axles_the_donor_shaft_is_judged_while_both_stay() {
    let mut with_third = chassis();
    let mut third = with_third.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm = 6_300.0;
    third.input_x_mm = None;
    third.input_z_mm = None;
    third.ratio = None;
    third.inter_axle = Some(InterAxle {
        from_axle: "axle-2".to_owned(),
        from_x_mm: 5_270.0,
        from_z_mm: 640.0,
        from_down_deg: 3.0,
        to_x_mm: 6_040.0,
        to_z_mm: 640.0,
        to_down_deg: 3.0,
        shaft: tube(),
    });
    with_third.axles.push(third);
    with_third.groups[1].axles.push("axle-3".to_owned());
    let plan = driven(with_third, tube());
    let assessment = assess(&plan);
    let shafts = &assessment.answers.driveline.shafts;
    assert_eq!(shafts.len(), 2);
    let between = &shafts[1];
    assert!(between.between_axles);
    close(*between.torque_nm.as_ref().unwrap(), 3_000.0, 1e-9);
    // One axle 100 up, the other 80 down, over 770 mm; the axes fall by 3 degrees.
    let steepest = (180.0_f64 / 770.0).atan().to_degrees();
    close(
        between.state(Ride::Jounce).joints[0].angle_deg,
        steepest - 3.0,
        1e-9,
    );
    close(
        between.state(Ride::Rebound).joints[0].angle_deg,
        steepest + 3.0,
        1e-9,
    );
    close(between.state(Ride::Empty).joints[0].angle_deg, 3.0, 1e-9);
}

#[test]
fn an_e_axle_in_its_place_takes_the_inter_axle_shaft_away() {
    let library = Library::shipped();
    let lines = |example: &str| {
        let path = format!("{}/examples/{example}", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let plan = Plan::from_json(example, &text).unwrap();
        Assessment::of(&plan, &library)
            .unwrap()
            .answers
            .driveline
            .shafts
            .len()
    };
    assert_eq!(lines("prairie-loop.json"), 2);
    assert_eq!(lines("gullwharf-drayage.json"), 0);
}

#[test]
fn the_wrong_examples_show_every_failure() {
    let library = Library::shipped();
    let fails = |example: &str| -> Vec<&'static str> {
        let path = format!("{}/examples/wrong/{example}", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let plan = Plan::from_json(example, &text).unwrap();
        let found = Assessment::of(&plan, &library).unwrap().findings;
        found
            .iter()
            .filter(|f| f.severity == Severity::Fails && f.pointer.is_some())
            .map(|f| f.check)
            .collect()
    };
    let steep = fails("quarry-steep-shaft.json");
    for check in [
        "shaft-angle",
        "shaft-travel",
        "shaft-ends",
        "shaft-ripple",
        "shaft-plunge",
        "shaft-torque",
    ] {
        assert!(steep.contains(&check), "{check}");
    }
    assert!(fails("millbrook-long-shaft.json").contains(&"shaft-speed"));
}
