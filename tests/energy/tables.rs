//! Tables of reference libraries: gas mixtures, heat exchangers; and route tables that cannot be used.

/// Not in the rows: Kay's rule against a reference mixture model (CoolProp 8.0.0, HEOS mixture of
/// the pipeline gas), computed.
#[test]
fn natural_gas_is_within_the_stated_distance_of_a_mixture_model() {
    use axlewright_core::plant::gas::NaturalGas;
    for (kelvin, mpa, want) in [
        (288.15, 25.0, 220.464),
        (294.26, 25.0, 212.815),
        (253.15, 20.0, 243.381),
        (313.15, 30.0, 217.504),
        (288.15, 2.0, 15.1407),
    ] {
        let got = NaturalGas::PIPELINE.density_kg_m3(kelvin, mpa).unwrap();
        assert!(
            (got / want - 1.0).abs() < 0.015,
            "{kelvin} K {mpa} MPa: {got}, expected {want}"
        );
    }
}

/// The library `ht` on a grid: its reading of the closed relation to rounding, and its exact solution
/// within the four per cent that the closed relation differs from it.
#[test]
fn cross_flow_agrees_with_a_library() {
    let file: toml::Table = include_str!("../published/energy/cross_flow.toml")
        .parse()
        .unwrap();
    let rows = file["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 48);
    for row in rows {
        let row: Vec<f64> = row
            .as_array()
            .unwrap()
            .iter()
            .map(|v| v.as_float().unwrap())
            .collect();
        let [ntu, ratio, closed, exact] = row[..] else {
            panic!("{row:?}");
        };
        let got = axlewright_core::plant::cross_flow(ntu, ratio);
        assert!((got - closed).abs() < 1e-11, "{row:?}: {got}");
        assert!((got / exact - 1.0).abs() < 0.04, "{row:?}: {got}");
    }
}

/// Tables of routes that cannot be used: each with its file, place, value and what would do.
#[test]
fn tables_of_nonsense_are_answered_with_their_place() {
    use axlewright_core::route::from_csv;
    for (text, word) in [
        ("", "neither time nor distance"),
        ("time_s,speed_mph\n", "no way to drive"),
        ("time_s,speed_mph\n0,10\n0,20\n", "does not rise"),
        ("time_s,speed_mph\n1,10\n0,20\n", "does not rise"),
        ("time_s,speed_mph\n0,10\n1,NaN\n", "is not a number"),
        ("time_s,speed_mph\n0,10\n1,900\n", "is out of range"),
        ("distance_m,grade_pct\n0,0\n100,80\n", "is out of range"),
        ("distance_m,elevation_m\n0,0\n1,100\n", "too steep"),
        ("distance_m,colour\n0,0\n", "is not a column"),
    ] {
        let problems = from_csv("route.csv", text, 20.0).unwrap_err().to_string();
        assert!(
            problems.contains("route.csv") && problems.contains(word),
            "{text:?}: {problems}"
        );
    }
    let long: String = (0..1_000_000).map(|i| format!("{i},{}\n", i % 7)).collect();
    let route = from_csv("long.csv", &format!("time_s,speed_mps\n{long}"), 20.0).unwrap();
    assert!((route.length_m() / 3_000_000.0 - 1.0).abs() < 0.001);
}
