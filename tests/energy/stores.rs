//! *Published*: rows of `tests/published/energy/figures.toml` about gases, cells, charging, wear and heat.

use super::published::{Row, each, list, number, value};
use super::rig;
use axlewright_core::energy::{Limits, OUTLETS, Outlet, PLUGS, Plug, charge, rainflow};
use axlewright_core::part::{Chemistry, Fuel, SourceUnit};
use axlewright_core::plant::gas::{HYDROGEN_MJ_PER_KG, Hydrogen, Methane};
use axlewright_core::plant::{Cell, Radiator, Source};

#[test]
fn density_of_hydrogen() {
    each("hydrogen density, published check value", |row| {
        let (t, p) = (row.given("T_K"), row.given("P_MPa"));
        row.expect("Z", Hydrogen::compressibility(t, p).unwrap());
        let mol_l = Hydrogen::density_kg_m3(t, p).unwrap() / Hydrogen::MOLAR_MASS / 1e3;
        row.expect("rho_mol_L", mol_l);
    });
}

#[test]
fn hydrogen_in_a_tank() {
    each("hydrogen tank mass", |row| {
        let mass = |t: &str, p: &str| {
            Hydrogen::density_kg_m3(row.given(t), row.given(p)).unwrap() * row.given("V_m3")
        };
        let (full, left) = (mass("T0_K", "P0_MPa_abs"), mass("T1_K", "P1_MPa_abs"));
        row.expect("m0_kg", full);
        row.expect("m1_kg", left);
        row.expect("difference_kg", full - left);
        row.expect(
            "energy_kWh_LHV_of_difference",
            (full - left) * HYDROGEN_MJ_PER_KG / 3.6,
        );
    });
}

#[test]
fn density_of_methane() {
    each("methane density", |row| {
        let (t, p) = (row.given("t_C") + 273.15, row.given("p_bar_abs") / 10.0);
        row.expect("rho_kg_m3", Methane::density_kg_m3(t, p).unwrap());
        row.expect("Z", Methane::compressibility(t, p).unwrap());
    });
}

#[test]
fn natural_gas_in_a_tank() {
    each("CNG tank content", |row| {
        let at = |p: &str| {
            let density = Methane::density_kg_m3(row.given("t_C") + 273.15, row.given(p) / 10.0);
            density.unwrap() * row.given("water_volume_L") / 1e3
        };
        row.expect("m_full_kg", at("p_bar_abs"));
        row.expect("m_reserve_kg", at("reserve_p_bar_abs"));
    });
}

fn chemistry(row: &Row) -> Chemistry {
    match row.given["chemistry"].as_str().unwrap() {
        "NMC811/graphite-SiOx (LG M50 21700)" | "NMC" => Chemistry::Nmc,
        _ => Chemistry::Lfp,
    }
}

#[test]
fn open_circuit_voltages() {
    each("open-circuit voltage", |row| {
        let cell = Cell::of(chemistry(row));
        let wanted = list(&row.expected["ocv_V"]);
        for (soc, volts) in row.given_list("soc").iter().zip(wanted) {
            row.near("ocv", cell.open_v(*soc), volts);
        }
    });
}

/// A cell whose open-circuit voltage is straight, with one resistance.
fn straight_cell(empty_v: f64, full_v: f64, ohm_ah: f64) -> &'static Cell {
    let mut cell = *Cell::of(Chemistry::Lfp);
    for (step, volts) in cell.open_v.iter_mut().enumerate() {
        *volts = empty_v + (full_v - empty_v) * step as f64 / 20.0;
    }
    (cell.ohm_ah, cell.activation_j_mol, cell.empty_rise) = (ohm_ah, 0.0, 0.0);
    (cell.least_v, cell.most_v) = (0.0, 1e4);
    Box::leak(Box::new(cell))
}

#[test]
fn packs_under_load() {
    each("pack electrical", |row| {
        let (series, parallel) = (row.given("series"), row.given("parallel"));
        let nominal = row.given("cell_V_nom");
        let ah = row.given("cell_Ah") * parallel;
        let mut bank = rig::bank(Chemistry::Lfp, 100.0, 1_000.0);
        bank.cell = straight_cell(
            nominal,
            nominal,
            row.given("cell_R_ohm") * row.given("cell_Ah"),
        );
        (bank.series, bank.capacity_ah) = (series, ah);
        row.expect("energy_kWh", bank.energy_to_j(1.0) / 3.6e6);
        row.expect("V_nom", bank.open_v(0.5));
        row.expect("R_pack_ohm", bank.resistance_ohm(25.0, 0.5));
        let draw = bank.draw(row.given("P_discharge_kW") * 1e3, 25.0, 0.5);
        row.expect("I_A", draw.amps);
        row.expect("V_term", draw.volts);
        row.expect("loss_kW", (draw.inner_w - draw.power_w) / 1e3);
        row.expect("C_rate", draw.amps / ah);
        // Cells that may fall to half their voltage give the most that their resistance lets through.
        (bank.peak_w, bank.continuous_w) = (1e9, 1e9);
        let mut cell = *bank.cell;
        cell.least_v = 0.5 * nominal;
        bank.cell = Box::leak(Box::new(cell));
        let most = bank.most_discharge_w(25.0, 0.5, 1.0);
        row.expect("P_max_kW", most / 1e3);
    });
}

#[test]
fn constant_current_then_constant_voltage() {
    each("CC-CV charge, linear OCV", |row| {
        let q = row.given("Q_Ah");
        let mut bank = rig::bank(Chemistry::Lfp, 100.0, 10_000.0);
        let full = row.given("V0") + row.given("k_V_per_Ah") * q;
        bank.cell = straight_cell(row.given("V0"), full, row.given("R_ohm") * q);
        (bank.series, bank.capacity_ah, bank.charge_w) = (1.0, q, 1e9);
        let limits = Limits {
            most_a: row.given("I_cc_A"),
            most_w: 1e9,
            most_v: row.given("V_max"),
            end_a: row.given("I_cut_A"),
            pack_c: 25.0,
        };
        let done = charge(&bank, row.given("soc0"), 1.0, &limits);
        assert!(done.tapered_out);
        let near = |name: &str, got: f64| {
            let want = number(&row.expected, name).unwrap();
            assert!(
                (got / want - 1.0).abs() < 0.001,
                "{} {name}: {got}, expected {want}",
                row.id
            );
        };
        near("t_cc_h", done.at_current_s / 3600.0);
        near("t_cv_h", (done.time_s - done.at_current_s) / 3600.0);
        near("q_end_Ah", done.soc_end * q);
        near("E_dc_kWh", done.energy_j / 3.6e6);
    });
}

#[test]
fn power_of_a_plug() {
    each("charger limit", |row| {
        let plug = Plug {
            most_v: row.given("V_max"),
            most_a: row.given("I_max_A"),
            most_w: row.given("P_max_kW") * 1e3,
            ..PLUGS[0]
        };
        row.expect("P_kW", plug.power_w(row.given("pack_V")).unwrap() / 1e3);
        assert_eq!(plug.power_w(row.given("V_max") + 1.0), None);
        // The row's limits are those of a plug that is shipped.
        let same =
            |p: &&Plug| (p.most_v, p.most_a, p.most_w) == (plug.most_v, plug.most_a, plug.most_w);
        assert!(PLUGS.iter().any(|p| same(&p)), "{}: no such plug", row.id);
    });
}

#[test]
fn power_of_an_outlet() {
    each("AC charging power", |row| {
        let outlet = Outlet {
            volts: row.given("V_line"),
            amps: row.given("I_A"),
            phases: row.given("phases") as u8,
            ..OUTLETS[0]
        };
        row.expect("P_kW", outlet.power_w() / 1e3);
    });
}

/// What public summaries of the standards print (an encyclopedia's pages on the megawatt plug and on SAE J1772, a
/// trade paper's on SAE J3068; read): 1,250 V and 3,000 A are 3.75 MW; 80 A at 240 V 19.2 kW; 160 A 133 kW at 480 V.
#[test]
fn shipped_plugs_and_outlets_have_the_power_that_is_printed() {
    let plug = |name: &str| PLUGS.iter().find(|p| p.name == name).unwrap();
    let megawatt = plug("MCS 3.75 MW");
    assert_eq!(megawatt.power_w(1_250.0), Some(3.75e6));
    assert_eq!(megawatt.most_v * megawatt.most_a, megawatt.most_w);
    let outlet = |name: &str| OUTLETS.iter().find(|o| o.name == name).unwrap().power_w() / 1e3;
    assert!((outlet("J1772 240 V") - 19.2).abs() < 0.05);
    assert!((outlet("J3068 480 V") - 133.0).abs() < 0.1);
}

#[test]
fn rainflow_of_the_standard() {
    each("rainflow counting, ASTM E1049-85 worked example", |row| {
        let counts = rainflow(&row.given_list("series"));
        for (range, want) in row.expected["counts"].as_table().unwrap() {
            let range: f64 = range.parse().unwrap();
            let got: f64 = counts
                .iter()
                .filter(|(r, _)| (r - range).abs() < 1e-9)
                .map(|(_, n)| n)
                .sum();
            assert_eq!(got, value(want).unwrap(), "range {range}");
        }
    });
}

#[test]
fn damage_of_counted_cycles() {
    each("rainflow + Miner on a state-of-charge trace", |row| {
        // The row's life curve: 3000 cycles at 0.8, exponent 1.2.
        let counts = rainflow(&row.given_list("soc"));
        let sum: f64 = counts
            .iter()
            .map(|(depth, n)| axlewright_core::energy::damage(*depth, 3_000.0, 1.2) * n)
            .sum();
        row.expect("damage", sum);
    });
}

#[test]
fn heat_of_radiators() {
    each("radiator heat rejection", |row| {
        // A face and a speed that make the row's air flow at the density of rating.
        let radiator = Radiator {
            ua_w_k: row.given("UA_W_K"),
            coolant_kg_s: row.given("coolant_kg_s"),
            coolant_cp: row.given("coolant_cp"),
            face_m2: 1.0,
            rated_m_s: row.given("air_kg_s") / 1.127,
        };
        let (hot, cold) = (row.given("T_coolant_in_C"), row.given("T_air_in_C"));
        let heat = radiator.heat_w(hot, cold, radiator.rated_m_s, 1.127);
        row.expect("Q_kW", heat / 1e3);
        row.expect("Q_per_ITD_kW_K", heat / 1e3 / (hot - cold));
    });
}

#[test]
fn heat_of_fuel_cells() {
    each("fuel-cell heat rejection", |row| {
        let (power, efficiency) = (row.given("P_net_kW"), row.given("eff_LHV"));
        let heat = power * (1.0 / efficiency - 1.0) * row.given("share_of_loss_to_coolant");
        let source = Source::of(
            "cell",
            &SourceUnit {
                continuous_kw: Some(power),
                efficiency: Some(efficiency),
                efficiency_half: Some(efficiency),
                heat_coolant_kw: Some(heat),
                heat_exhaust_kw: None,
                coolant_out_c: Some(row.given("T_coolant_C")),
                fuel: Some(Fuel::Hydrogen),
                ..SourceUnit::default()
            },
        )
        .unwrap();
        row.expect("fuel_kW_LHV", source.fuel_w(power * 1e3) / 1e3);
        row.expect("Q_coolant_kW", source.heat_w(power * 1e3) / 1e3);
        let kg_h = source.fuel_w(power * 1e3) / (HYDROGEN_MJ_PER_KG * 1e6) * 3600.0;
        row.expect("H2_kg_h", kg_h);
    });
}
