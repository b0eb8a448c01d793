//! *Property.* One rule says what is near its limit, wherever it is shown: a margin of less than two
//! standard deviations of the load.

use crate::shipped::{examples, short, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, thin_kg};
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report::page;

fn assessments() -> Vec<(String, Assessment)> {
    let library = Library::shipped();
    let of = |path: &std::path::PathBuf| {
        let name = short(path);
        let plan = Plan::from_json(&name, &text(path)).unwrap_or_else(|p| panic!("{p}"));
        (name, Assessment::of(&plan, &library).unwrap())
    };
    examples().iter().map(of).collect()
}

/// A tandem in the table of groups is the axle group that its own finding speaks of.
#[test]
fn a_group_of_axles_is_as_near_its_limit_as_the_axle_group_that_it_is() {
    let mut compared = 0;
    for (name, assessment) in assessments() {
        let answers = &assessment.answers;
        let Ok(groups) = &answers.bridge else {
            continue;
        };
        for bridge in groups {
            let same = |g: &&axlewright_core::chassis::Group| g.axles == bridge.group.axles;
            let Some(group) = answers.vehicle.chassis.groups.iter().find(same) else {
                continue;
            };
            let (case, load) = answers.loads.heaviest_of(&group.id).unwrap();
            assert_eq!(case, bridge.case, "{name}: {}", group.id);
            assert!(
                (load.sigma_kg - bridge.sigma_kg).abs() < 1e-9 * load.sigma_kg,
                "{name}: {} {load:?} {}",
                group.id,
                bridge.sigma_kg
            );
            let wanted = Severity::of_margin(Some(bridge.group.margin_kg()), load.thin_kg());
            assert_eq!(bridge.severity(), wanted, "{name}: {}", group.id);
            compared += 1;
        }
    }
    assert!(compared > 20, "{compared}");
}

/// Every mark of the law's table of groups is the word that margin and uncertainty give.
#[test]
fn the_table_of_groups_marks_what_is_to_watch() {
    let mut watched = 0;
    for (name, assessment) in assessments() {
        let Ok(groups) = &assessment.answers.bridge else {
            continue;
        };
        let law = page("law", &assessment, Units::Metric).unwrap();
        let Some(table) = law.tables.iter().find(|t| t.title.starts_with("Groups of")) else {
            continue;
        };
        for (row, bridge) in table.rows.iter().zip(groups) {
            assert_eq!(row.severity, Some(bridge.severity()), "{name}: {row:?}");
            let margin = bridge.group.margin_kg();
            let near = (0.0..thin_kg(bridge.sigma_kg)).contains(&margin);
            assert_eq!(
                near,
                row.severity == Some(Severity::Caution),
                "{name}: {row:?}"
            );
            watched += usize::from(near);
        }
    }
    assert!(watched > 0, "no example has a group that is to watch");
}

/// Whole masses follow the same rule, and a truck's is uncertain by its masses together, wherever they stand.
#[test]
fn a_whole_weight_is_near_its_limit_by_the_same_rule() {
    let mut near = 0;
    for (name, assessment) in assessments() {
        let loads = &assessment.answers.loads;
        let Some(heaviest) = loads.heaviest() else {
            continue;
        };
        let sigma_kg = heaviest.sigma_kg(|_| 1.0);
        let each: f64 = heaviest.groups.iter().map(|g| g.sigma_kg.powi(2)).sum();
        assert!(sigma_kg > 0.0, "{name}");
        assert!(
            sigma_kg.powi(2) < 2.0 * each + 1.0,
            "{name}: {sigma_kg} of {each}"
        );
        let own = |f: &&axlewright_core::shared::Shared<axlewright_core::findings::Finding>| {
            ["gvwr", "gcwr", "road-gross"].contains(&f.check)
        };
        for finding in assessment.findings.iter().filter(own) {
            let Some(margin) = finding.margin else {
                continue;
            };
            let wanted = Severity::of_margin(Some(margin.value), thin_kg(sigma_kg));
            assert_eq!(finding.severity, wanted, "{name}: {finding:?}");
            near += usize::from(wanted == Severity::Holds);
        }
    }
    assert!(near > 20, "{near} that hold");
    // The box truck with so much payload that 5 kg are left of its GVWR, and it is to weigh.
    let mut plan = super::read("millbrook-parcel.json");
    let gvwr = |plan: &Plan| super::of_check(&super::assess(plan), "gvwr")[0].clone();
    let room = gvwr(&plan).margin.unwrap().value;
    plan.loads.payload.as_mut().unwrap().mass_kg += room - 5.0;
    let found = gvwr(&plan);
    assert_eq!(found.severity, Severity::Caution);
    let said = found.sentence.words(Units::Metric);
    assert!(
        said.contains("5 kg under its GVWR") && said.ends_with("so weigh it."),
        "{said}"
    );
    plan.loads.payload.as_mut().unwrap().mass_kg += 6.0;
    assert_eq!(gvwr(&plan).severity, Severity::Fails);
}

/// A part whose mass is uncertain by 30 kg makes the truck so, whatever it stands on.
#[test]
fn a_part_adds_its_own_uncertainty_to_the_truck() {
    let library = Library::shipped();
    let path = &examples()[2];
    let plan = Plan::from_json("plan", &text(path)).unwrap();
    let sigma = |plan: &Plan| {
        let assessment = Assessment::of(plan, &library).unwrap();
        let case = assessment.answers.loads.case(Case::Unladen).unwrap();
        case.sigma_kg(|_| 1.0)
    };
    let with = sigma(&plan);
    let mut without = plan.clone();
    let off = without.placed.iter().position(|p| {
        let part = library.parts.get(&p.part);
        part.is_some_and(|part| {
            part.mass_sigma_kg > 0.0 && part.contents.is_none() && part.axle.is_none()
        })
    });
    let off = without.placed.remove(off.unwrap());
    let own = library.parts[&off.part].mass_sigma_kg;
    let less = with.powi(2) - sigma(&without).powi(2);
    assert!(
        (less - own.powi(2)).abs() < 1e-6 * with.powi(2),
        "{less} for {own}"
    );
}
