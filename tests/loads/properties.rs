//! *Property.* What must hold for any vehicle: any template, any wheelbase, slider position,
//! strip-out and axles up, with any masses anywhere.

use super::yard::part;
use axlewright_core::chassis::{Chassis, Share, Spot};
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, CaseLoads, Loads, loads};
use axlewright_core::plan::{
    ChassisChoice, Edit, History, Payload, PayloadPlace, Place, Placed, Plan, TrailerLoad,
};
use axlewright_core::vehicle::Vehicle;
use proptest::prelude::*;
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(Library::shipped);

/// A mass somewhere: kg, front face x, middle y, underside z.
#[derive(Clone, Debug)]
struct Lump {
    kg: f64,
    x: f64,
    y: f64,
    z: f64,
}

#[derive(Clone, Debug)]
struct Recipe {
    template: usize,
    stretch_mm: f64,
    slide: f64,
    strip: u64,
    raise: bool,
    lumps: Vec<Lump>,
    driver_kg: Option<f64>,
    payload: Option<Lump>,
    trailer_kg: Option<f64>,
}

fn a_lump() -> impl Strategy<Value = Lump> {
    (
        0.0..2_500.0_f64,
        -1_500.0..8_000.0_f64,
        -1_200.0..1_200.0_f64,
        100.0..2_500.0_f64,
    )
        .prop_map(|(kg, x, y, z)| Lump { kg, x, y, z })
}

fn a_recipe() -> impl Strategy<Value = Recipe> {
    (
        0..LIBRARY.chassis.len(),
        prop_oneof![Just(0.0), -300.0..1_500.0_f64],
        0.0..1.0_f64,
        any::<u64>(),
        any::<bool>(),
        prop::collection::vec(a_lump(), 0..8),
        prop::option::of(50.0..200.0_f64),
        prop::option::of(a_lump()),
        prop::option::of(0.0..30_000.0_f64),
    )
        .prop_map(
            |(template, stretch_mm, slide, strip, raise, lumps, driver_kg, payload, trailer_kg)| {
                Recipe {
                    template,
                    stretch_mm,
                    slide,
                    strip,
                    raise,
                    lumps,
                    driver_kg,
                    payload,
                    trailer_kg,
                }
            },
        )
}

impl Recipe {
    fn chassis(&self) -> &'static Chassis {
        LIBRARY.chassis.values().nth(self.template).unwrap()
    }

    fn plan(&self) -> Plan {
        let chassis = self.chassis();
        let mut plan = Plan::on(chassis);
        plan.changes.stripped = chassis
            .hardware
            .iter()
            .enumerate()
            .filter(|(i, _)| self.strip >> (i % 64) & 1 == 1)
            .map(|(_, h)| h.id.clone())
            .collect();
        plan.changes.stripped.sort();
        if self.stretch_mm != 0.0 {
            plan.changes.wheelbase_mm = Some(chassis.dimensions.wheelbase_mm + self.stretch_mm);
        }
        if let Some(fw) = &chassis.fifth_wheel {
            let ahead = fw.ahead_min_mm + self.slide * (fw.ahead_max_mm - fw.ahead_min_mm);
            plan.changes.fifth_wheel_ahead_mm = Some(ahead);
            plan.loads.trailer = self.trailer_kg.map(|payload_kg| {
                let id = "van-53".to_owned();
                TrailerLoad {
                    id,
                    payload_kg,
                    load_cg: None,
                    kingpin_to_axles_mm: None,
                }
            });
        }
        if self.raise {
            let lifts = chassis
                .axles
                .iter()
                .filter(|a| a.kind == axlewright_core::chassis::AxleKind::Lift);
            plan.changes.raised = lifts.map(|a| a.id.clone()).collect();
        }
        for (index, lump) in self.lumps.iter().enumerate() {
            put(&mut plan, index, lump);
        }
        plan.loads.driver_kg = self.driver_kg;
        plan.loads.payload = self.payload.as_ref().map(|lump| Payload {
            mass_kg: lump.kg,
            at: PayloadPlace::Cg(Spot {
                x_mm: lump.x,
                y_mm: lump.y,
                z_mm: lump.z,
            }),
        });
        plan
    }

    /// Two supports, so that moments alone decide.
    fn on_two_supports(&self) -> bool {
        self.chassis().groups.len() == 2
    }
}

fn put(plan: &mut Plan, index: usize, lump: &Lump) {
    let id = format!("Z{}", index + 1);
    plan.parts
        .push(part(&id, "free-mass", lump.kg, [100.0, 100.0, 100.0]));
    plan.placed.push(
        Placed {
            tag: id.clone(),
            part: id,
            place: Place::Free {
                x_mm: lump.x,
                y_mm: lump.y,
                z_mm: lump.z,
            },
            turn: 0,
            fill: None,
            locked: false,
        }
        .into(),
    );
}

fn answered(plan: &Plan) -> (Vehicle, Loads) {
    let vehicle = Vehicle::resolve(plan, &LIBRARY).unwrap();
    let loads = loads(&vehicle);
    (vehicle, loads)
}

/// Both sides of a balance, kg, and its size.
fn near(a: f64, b: f64, size: f64) -> bool {
    (a - b).abs() <= 1e-9 * size.max(1.0)
}

/// Every group load, left and right, of every case in which the finished truck can stand.
fn wheel_loads(loads: &Loads) -> Vec<(f64, f64)> {
    let of = |c: &CaseLoads| {
        c.groups
            .iter()
            .map(|g| (g.left_kg, g.right_kg))
            .collect::<Vec<_>>()
    };
    loads
        .cases
        .iter()
        .filter(|c| c.case >= Case::Unladen)
        .flat_map(of)
        .collect()
}

/// The chassis of a case and where each of its groups presses, x.
fn supports(vehicle: &Vehicle, case: Case) -> Vec<f64> {
    let chassis = if case <= Case::Stripped {
        &vehicle.donor
    } else {
        &vehicle.chassis
    };
    chassis
        .groups
        .iter()
        .map(|g| chassis.group_x_mm(&g.id, &vehicle.raised).unwrap())
        .collect()
}

fn shifted(edit: impl Fn(&mut Plan), recipe: &Recipe) -> (Loads, Loads) {
    let before = recipe.plan();
    let mut after = before.clone();
    edit(&mut after);
    (answered(&before).1, answered(&after).1)
}

/// The same truck seen in a mirror: sides of the scale, of hardware, seat, parts and payload change.
fn mirrored(plan: &Plan, donor: &Chassis) -> Plan {
    let mut chassis = donor.clone();
    for load in &mut chassis.ticket.as_mut().unwrap().axle {
        std::mem::swap(&mut load.left_kg, &mut load.right_kg);
    }
    for item in &mut chassis.hardware {
        item.cg.y_mm = -item.cg.y_mm;
    }
    chassis.driver_seat.y_mm = -chassis.driver_seat.y_mm;
    let mut plan = plan.clone();
    plan.chassis = ChassisChoice::Inline(Box::new(chassis));
    for placed in &mut plan.placed {
        match &mut placed.place {
            Place::Free { y_mm, .. } | Place::Zone { y_mm, .. } => *y_mm = -*y_mm,
        }
    }
    if let Some(Payload {
        at: PayloadPlace::Cg(spot),
        ..
    }) = &mut plan.loads.payload
    {
        spot.y_mm = -spot.y_mm;
    }
    plan
}

/// Everything on the truck and the truck itself this many times as heavy.
fn heavier(plan: &Plan, donor: &Chassis, times: f64) -> Plan {
    let mut chassis = donor.clone();
    for load in &mut chassis.ticket.as_mut().unwrap().axle {
        load.load_kg *= times;
        load.left_kg = load.left_kg.map(|kg| kg * times);
        load.right_kg = load.right_kg.map(|kg| kg * times);
    }
    for item in &mut chassis.hardware {
        item.mass_kg *= times;
    }
    for group in &mut chassis.groups {
        if let Share::FixedKg(kg) = &mut group.share {
            *kg *= times;
        }
    }
    if let Some(fw) = &mut chassis.fifth_wheel {
        fw.mass_kg *= times;
    }
    let mut plan = plan.clone();
    plan.chassis = ChassisChoice::Inline(Box::new(chassis));
    for part in &mut plan.parts {
        part.mass_kg *= times;
    }
    plan.loads.driver_kg = plan.loads.driver_kg.map(|kg| kg * times);
    if let Some(payload) = &mut plan.loads.payload {
        payload.mass_kg *= times;
    }
    plan.loads.trailer = None;
    plan
}

/// An edit that a person could make, possible or not.
fn an_edit() -> impl Strategy<Value = Edit> {
    let tag = || prop::sample::select(vec!["Z1", "Z2", "Z3", "B1", "T1"]).prop_map(str::to_owned);
    let coordinate = || -2_000.0..7_000.0_f64;
    let part = prop::sample::select(LIBRARY.parts.keys().cloned().collect::<Vec<_>>());
    let item = prop::sample::select(vec![
        "engine",
        "gearbox",
        "driveshaft",
        "fuel-left",
        "no-such",
    ]);
    let zone = prop::option::of(prop::sample::select(vec![
        "saddle-left",
        "behind-cab",
        "axle-2",
    ]));
    prop_oneof![
        (part, coordinate(), coordinate(), coordinate(), zone, 0..4u8).prop_map(
            |(part, x_mm, y_mm, z_mm, zone, turn)| Edit::Place {
                part,
                x_mm,
                y_mm,
                z_mm,
                turn,
                tag: None,
                zone: zone.map(str::to_owned),
            }
        ),
        (tag(), coordinate(), coordinate(), coordinate()).prop_map(|(tag, x_mm, y_mm, z_mm)| {
            Edit::Move {
                tag,
                x_mm,
                y_mm,
                z_mm,
                zone: None,
            }
        }),
        tag().prop_map(|tag| Edit::Turn { tag }),
        tag().prop_map(|tag| Edit::Mirror { tag }),
        tag().prop_map(|tag| Edit::Duplicate { tag }),
        tag().prop_map(|tag| Edit::Delete { tag }),
        (tag(), any::<bool>()).prop_map(|(tag, on)| Edit::Lock { tag, on }),
        (tag(), 0.0..1.0).prop_map(|(tag, share)| Edit::Fill { tag, share }),
        (tag(), tag()).prop_map(|(tag, new)| Edit::Retag { tag, new }),
        item.clone().prop_map(|item| Edit::Strip {
            item: item.to_owned()
        }),
        item.prop_map(|item| Edit::Keep {
            item: item.to_owned()
        }),
        (2_000.0..9_500.0).prop_map(|mm| Edit::Wheelbase { mm }),
        (1_000.0..4_000.0).prop_map(|x_mm| Edit::Splice { x_mm }),
        (-900.0..1_500.0).prop_map(|ahead_mm| Edit::FifthWheel { ahead_mm }),
        Just(Edit::Raise {
            axle: "axle-3".to_owned()
        }),
        prop::option::of(0.0..300.0).prop_map(|kg| Edit::Driver { kg }),
        prop::option::of(0.0..30_000.0).prop_map(|kg| Edit::Target { kg }),
        prop::option::of(0.0..30_000.0).prop_map(|kg| Edit::Trailer(kg.map(|payload_kg| {
            TrailerLoad {
                id: "van-53".to_owned(),
                payload_kg,
                load_cg: None,
                kingpin_to_axles_mm: None,
            }
        }))),
        "[a-z<&\"é ]{0,12}".prop_map(|name| Edit::Rename { name }),
        ".{0,20}".prop_map(|text| Edit::Notes { text }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn axle_loads_add_up_to_the_mass(recipe in a_recipe()) {
        let (vehicle, loads) = answered(&recipe.plan());
        for c in &loads.cases {
            let carried = c.truck.mass_kg + c.kingpin_kg.unwrap_or(0.0);
            let size = vehicle.masses.iter().map(|m| m.mass_kg.abs()).sum::<f64>() + carried.abs();
            let groups: f64 = c.groups.iter().map(|g| g.load_kg).sum();
            let axles: f64 = c.axles.iter().map(|a| a.load_kg).sum();
            prop_assert!(near(groups, carried, size), "{:?}: {groups} {carried}", c.case);
            prop_assert!(near(axles, carried, size), "{:?}: {axles} {carried}", c.case);
            let sides: f64 = c.groups.iter().map(|g| g.left_kg + g.right_kg).sum();
            prop_assert!(near(sides, carried, size), "{:?}: {sides} {carried}", c.case);
            let all = carried + c.trailer_axles_kg.unwrap_or(0.0);
            prop_assert!(near(c.gross_kg, all, size), "{:?}: {} {all}", c.case, c.gross_kg);
        }
    }

    #[test]
    fn moments_about_any_point_vanish(recipe in a_recipe(), about in -10_000.0..20_000.0_f64) {
        let (vehicle, loads) = answered(&recipe.plan());
        for c in loads.cases.iter().filter(|c| c.case != Case::Donor) {
            let at = supports(&vehicle, c.case);
            let up: f64 = c.groups.iter().zip(&at).map(|(g, x)| g.load_kg * (x - about)).sum();
            let pin = vehicle.trailer.as_ref().map_or(0.0, |t| t.kingpin.x);
            let down = c.truck.mass_kg * (c.truck.x_mm - about)
                + c.kingpin_kg.unwrap_or(0.0) * (pin - about);
            let size = vehicle.masses.iter().map(|m| m.mass_kg.abs() * 20_000.0).sum::<f64>();
            prop_assert!(near(up, down, size), "{:?}: {up} {down}", c.case);
        }
    }

    /// The centre of gravity is the mean of what is aboard, put together here from the list.
    #[test]
    fn the_unladen_centre_is_the_mean_of_all_masses(recipe in a_recipe()) {
        let (vehicle, loads) = answered(&recipe.plan());
        let truck = loads.case(Case::Unladen).unwrap().truck;
        let mass: f64 = vehicle.masses.iter().map(|m| m.mass_kg * m.fill).sum();
        let x: f64 = vehicle.masses.iter().map(|m| m.mass_kg * m.fill * m.at.x).sum();
        let y: f64 = vehicle.masses.iter().map(|m| m.mass_kg * m.fill * m.at.y).sum();
        prop_assert!(near(truck.mass_kg, mass, mass));
        prop_assert!(near(truck.x_mm * mass, x, mass * 1e4));
        prop_assert!(near(truck.y_mm * mass, y, mass * 1e4));
    }

    #[test]
    fn moving_a_mass_rearward_moves_its_moment_over_the_wheelbase(
        recipe in a_recipe().prop_filter("two supports", Recipe::on_two_supports),
        lump in a_lump(),
        by in -3_000.0..3_000.0_f64,
    ) {
        let mut here = recipe.clone();
        here.lumps.insert(0, lump.clone());
        let move_it = |plan: &mut Plan| {
            plan.placed[0].place = Place::Free { x_mm: lump.x + by, y_mm: lump.y, z_mm: lump.z };
        };
        let (before, after) = shifted(move_it, &here);
        let (vehicle, _) = answered(&here.plan());
        let at = supports(&vehicle, Case::Unladen);
        let moved = lump.kg * by / (at[1] - at[0]);
        for (b, a) in before.cases.iter().zip(&after.cases).filter(|(b, _)| b.case >= Case::Unladen) {
            let size = b.truck.mass_kg + b.kingpin_kg.unwrap_or(0.0) + lump.kg;
            prop_assert!(near(a.groups[0].load_kg, b.groups[0].load_kg - moved, size));
            prop_assert!(near(a.groups[1].load_kg, b.groups[1].load_kg + moved, size));
        }
    }

    #[test]
    fn in_the_mirror_left_and_right_change_places(recipe in a_recipe()) {
        let plan = recipe.plan();
        let here = wheel_loads(&answered(&plan).1);
        let there = wheel_loads(&answered(&mirrored(&plan, recipe.chassis())).1);
        prop_assert_eq!(here.len(), there.len());
        for ((left, right), (mirror_left, mirror_right)) in here.into_iter().zip(there) {
            let size = left.abs() + right.abs() + 1e4;
            prop_assert!(near(left, mirror_right, size) && near(right, mirror_left, size));
        }
    }

    #[test]
    fn a_truck_twice_as_heavy_has_twice_the_loads(recipe in a_recipe(), times in 0.1..5.0_f64) {
        // Rail is added by its section, whatever the truck weighs.
        let recipe = Recipe { stretch_mm: 0.0, trailer_kg: None, ..recipe };
        let plan = recipe.plan();
        let one = wheel_loads(&answered(&plan).1);
        let more = wheel_loads(&answered(&heavier(&plan, recipe.chassis(), times)).1);
        prop_assert_eq!(one.len(), more.len());
        for ((left, right), (more_left, more_right)) in one.into_iter().zip(more) {
            let size = (left.abs() + right.abs() + 1e4) * times.max(1.0);
            prop_assert!(near(left * times, more_left, size) && near(right * times, more_right, size));
        }
    }

    /// Stretched and cut back by two edits: nothing can stand in the piece that was put in, because
    /// it was not there before.
    #[test]
    fn stretched_and_cut_back_the_loads_are_the_same(recipe in a_recipe(), by in 1.0..1_500.0_f64) {
        let recipe = Recipe { stretch_mm: 0.0, ..recipe };
        let plan = recipe.plan();
        let donor = recipe.chassis().dimensions.wheelbase_mm;
        let longer = Edit::Wheelbase { mm: donor + by }.applied(&plan, &LIBRARY).unwrap();
        let back = Edit::Wheelbase { mm: donor }.applied(&longer, &LIBRARY).unwrap();
        let (here, there) = (wheel_loads(&answered(&plan).1), wheel_loads(&answered(&back).1));
        for ((left, right), (back_left, back_right)) in here.into_iter().zip(there) {
            let size = left.abs() + right.abs() + 1e4;
            prop_assert!(near(left, back_left, size) && near(right, back_right, size));
        }
    }

    /// A longer wheelbase moves weight forward: what stood behind the cut moves with the axle.
    #[test]
    fn a_stretch_adds_the_rail_and_nothing_else(recipe in a_recipe(), by in 1.0..1_500.0_f64) {
        let (_, before) = answered(&Recipe { stretch_mm: 0.0, ..recipe.clone() }.plan());
        let (_, after) = answered(&Recipe { stretch_mm: by, ..recipe.clone() }.plan());
        let mass = |loads: &Loads| loads.case(Case::Unladen).unwrap().truck.mass_kg;
        let rail = recipe.chassis().rail.both_kg_per_m() * by / 1_000.0;
        prop_assert!(near(mass(&after) - mass(&before), rail, mass(&before)));
    }

    #[test]
    fn undo_is_exact_after_any_edits(
        recipe in a_recipe(), edits in prop::collection::vec(an_edit(), 1..25)
    ) {
        let plan = recipe.plan();
        let mut history = History::new(plan.clone());
        let mut seen = vec![plan.to_json()];
        for edit in &edits {
            let before = history.plan().to_json();
            match history.apply(edit, &LIBRARY) {
                Ok(()) if history.plan().to_json() != before => seen.push(history.plan().to_json()),
                Ok(()) => {}
                Err(_) => prop_assert_eq!(&history.plan().to_json(), &before, "a refusal changed it"),
            }
        }
        let last = seen.last().unwrap().clone();
        for wanted in seen.iter().rev().skip(1) {
            prop_assert!(history.undo());
            prop_assert_eq!(&history.plan().to_json(), wanted);
        }
        prop_assert!(!history.undo());
        while history.redo() {}
        prop_assert_eq!(history.plan().to_json(), last);
    }

    #[test]
    fn stripped_and_kept_again_the_plan_is_the_same_bytes(recipe in a_recipe(), pick in any::<prop::sample::Index>()) {
        let plan = Recipe { strip: 0, ..recipe.clone() }.plan();
        let hardware = &recipe.chassis().hardware;
        let item = hardware[pick.index(hardware.len())].id.clone();
        let off = Edit::Strip { item: item.clone() }.applied(&plan, &LIBRARY).unwrap();
        prop_assert_ne!(off.to_json(), plan.to_json());
        let on = Edit::Keep { item }.applied(&off, &LIBRARY).unwrap();
        prop_assert_eq!(on.to_json(), plan.to_json());
    }

    /// Whatever a person did, the file says it in one way only, and reads back as the same plan.
    #[test]
    fn a_plan_is_written_as_it_was_read(
        recipe in a_recipe(), edits in prop::collection::vec(an_edit(), 0..12)
    ) {
        let mut history = History::new(recipe.plan());
        for edit in &edits {
            let _ = history.apply(edit, &LIBRARY);
        }
        let text = history.plan().to_json();
        let read = Plan::from_json("plan", &text).map_err(|p| TestCaseError::fail(p.to_string()))?;
        prop_assert_eq!(&read, history.plan());
        prop_assert_eq!(read.to_json(), text);
    }
}
