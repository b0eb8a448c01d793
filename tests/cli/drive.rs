//! `drive`, `size` and `charge` on the command line.

use super::run;

#[test]
fn a_drive_is_told_in_words_and_as_data() {
    let plan = "examples/prairie-loop.json";
    let words = run(&["drive", plan, "--route", "harbour-shuttle", "--units", "us"]);
    assert!(words.code < 2 && words.err.is_empty(), "{}", words.err);
    assert!(words.out.contains("kWh/mi") && words.out.contains("speed-on-grade"));
    let ran = run(&[
        "drive",
        plan,
        "--route",
        "harbour-shuttle",
        "--format",
        "json",
    ]);
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(data["end"], "Finished");
    let found = data["findings"].as_array().unwrap();
    let fails = found.iter().any(|f| f["severity"] == "fails");
    assert_eq!(ran.code, i32::from(fails));
    let table = run(&[
        "size",
        "examples/gullwharf-drayage.json",
        "--range",
        "200mi",
    ]);
    assert_eq!((table.code, table.err.as_str()), (0, ""));
    for word in [
        "Packs for 321.9 km on the packs alone",
        "Lightest with LFP cells: ",
        "On the truck now",
        "Payload, kg",
    ] {
        assert!(table.out.contains(word), "{word}: {}", table.out);
    }
    let day = run(&["size", "examples/millbrook-parcel.json", "--units", "us"]);
    assert_eq!((day.code, day.err.as_str()), (0, ""));
    assert!(
        day.out.contains("Packs for the day, one trip: ") && day.out.contains("Volume, ft³"),
        "{}",
        day.out
    );
    let plug = run(&["charge", plan, "--inlet", "HV-INLET"]);
    assert_eq!((plug.code, plug.err.as_str()), (0, ""));
    for (command, word) in [
        (
            vec!["drive", plan, "--route", "no-such-road"],
            "no-such-road",
        ),
        (vec!["size", plan, "--range", "NaNmi"], "NaN"),
        (vec!["size", plan, "--range", "1e308km"], "1e308"),
        (
            vec!["size", plan, "--range", "9000km"],
            "from 1.0 km to 5,000.0 km",
        ),
        (
            vec!["charge", plan, "--inlet", "no-such-plug"],
            "no-such-plug",
        ),
    ] {
        let ran = run(&command);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{command:?}");
        assert!(ran.err.contains(word), "{command:?}: {}", ran.err);
    }
}

#[test]
fn charts_are_written_as_files_and_their_tables_as_data() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("charts");
    let _ = std::fs::remove_dir_all(&folder);
    let plan = "examples/harbour-hydrogen.json";
    let there = folder.to_string_lossy();
    let ran = run(&[
        "drive",
        plan,
        "--route",
        "harbour-shuttle",
        "--format",
        "json",
        "--charts",
        &there,
    ]);
    assert!(ran.code < 2 && ran.err.is_empty(), "{}", ran.err);
    let files = || -> Vec<String> {
        let all = std::fs::read_dir(&folder).unwrap();
        let mut all: Vec<String> = all
            .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        all.sort();
        all
    };
    let want = [
        "charge", "energy", "heat", "power", "pull", "route", "strip",
    ];
    let want: Vec<String> = want.iter().map(|w| format!("drive-{w}.svg")).collect();
    assert_eq!(files(), want);
    for file in &want {
        let svg = std::fs::read_to_string(folder.join(file)).unwrap();
        assert!(
            svg.starts_with("<svg ") && svg.ends_with("</svg>\n"),
            "{file}"
        );
    }
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let pages = data["pages"].as_array().unwrap();
    assert_eq!(pages.len(), 7);
    let rows = |p: &serde_json::Value| p["tables"][0]["rows"].as_array().map_or(0, Vec::len);
    assert!(
        pages
            .iter()
            .all(|p| rows(p) > 5 && p.get("picture").is_none())
    );

    std::fs::remove_dir_all(&folder).unwrap();
    let ran = run(&["charge", plan, "--charts", &there]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_eq!(files(), ["drive-charge.svg"]);
    // A file stands where the folder should be.
    let file = folder.join("drive-charge.svg");
    let ran = run(&["drive", plan, "--charts", &file.to_string_lossy()]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("drive-charge.svg"), "{}", ran.err);
}

/// A recorded track, a named inlet, and what is asked for in the wrong way.
#[test]
fn tracks_and_inlets_are_taken_by_name() {
    let plan = "examples/prairie-loop.json";
    let file = std::env::temp_dir().join(format!("axlewright-{}.gpx", std::process::id()));
    let points: String = (0..400)
        .map(|i| {
            let (lat, z) = (45.0 + f64::from(i) * 1e-4, 100.0 + 0.3 * f64::from(i));
            format!("<trkpt lat=\"{lat}\" lon=\"7\"><ele>{z}</ele></trkpt>")
        })
        .collect();
    let text =
        format!("<gpx version=\"1.1\" creator=\"t\"><trk><trkseg>{points}</trkseg></trk></gpx>");
    std::fs::write(&file, text).unwrap();
    let path = file.to_str().unwrap();
    let words = run(&["drive", plan, "--route", path, "--speed", "50mph"]);
    assert!(words.code < 2 && words.err.is_empty(), "{}", words.err);
    for word in [
        "Recorded track",
        "as recorded",
        "median",
        "80.5 km/h",
        "60 mph (97 km/h)",
        "  T1 ",
    ] {
        assert!(words.out.contains(word), "{word}: {}", words.out);
    }
    let ran = run(&["drive", plan, "--route", path, "--format", "json"]);
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert!((data["survey"]["climb_m"].as_f64().unwrap() - 119.7).abs() < 1.0);
    assert_eq!(data["ranges"].as_array().unwrap().len(), 4);
    assert!(data["tanks"][0]["usable_kg"].as_f64().unwrap() > 100.0);
    assert!(data["grades"]["sprint"]["to_60_mph_s"].as_f64().unwrap() > 10.0);
    std::fs::remove_file(&file).unwrap();

    let plug = run(&["charge", plan, "--inlet", "H3", "--format", "json"]);
    let data: serde_json::Value = serde_json::from_str(&plug.out).unwrap();
    assert_eq!(data["inlet"], "H3");
    assert!(data["by"].as_str().unwrap().contains("CCS"), "{}", plug.out);
    for (command, word) in [
        (vec!["drive", plan, "--route", "missing.gpx"], "missing.gpx"),
        (vec!["drive", plan, "--speed", "900mph"], "900mph"),
    ] {
        let ran = run(&command);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{command:?}");
        assert!(ran.err.contains(word), "{command:?}: {}", ran.err);
    }
    assert!(run(&["routes"]).out.contains("appendix A"));
}

/// What is known stands there itself, and what is not says why.
#[test]
fn a_drive_as_data_says_what_is_missing() {
    let plan = "examples/prairie-loop.json";
    let file = std::env::temp_dir().join(format!("axlewright-{}.csv", std::process::id()));
    let table = "distance_km,speed_kmh,stop_s,charger\n0,60,,\n2,60,60,CCS\n4,60,60,MCS\n5,60,,\n";
    std::fs::write(&file, table).unwrap();
    let path = file.to_str().unwrap();
    let ran = run(&["drive", plan, "--route", path, "--format", "json"]);
    std::fs::remove_file(&file).unwrap();
    assert!(!ran.out.contains("\"Ok\"") && !ran.out.contains("\"Err\""));
    let data: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(data["plugged"]["inlet"], "H3");
    let says = |value: &serde_json::Value, word: &str| {
        assert_eq!(value.as_object().map(serde_json::Map::len), Some(1));
        let why = value["not_assessed"].as_str().unwrap();
        assert!(why.contains(word), "{why}");
    };
    says(&data["cables"], "charging bay");
    assert!(data["charged"][0]["by"].as_str().unwrap().contains("CCS"));
    says(&data["charged"][1]["by"], "CCS inlet");
}

/// The cautions that a plan's own report ends with, in words and as data: a truck with packs and gas is told
/// of both, one without tanks of no gas.
#[test]
fn a_drive_says_what_to_beware_of() {
    let (voltage, gas) = ("High voltage can kill", "Flammable gas");
    for (plan, has_gas) in [("prairie-loop", true), ("orchard-lane-shuttle", false)] {
        let path = format!("examples/{plan}.json");
        let drive = |more: &[&str]| {
            let args = ["drive", &path, "--route", "harbour-shuttle"];
            run(&[&args[..], more].concat()).out
        };
        let words = drive(&[]);
        let (_, after) = words.split_once("\nCautions\n").unwrap();
        assert!(after.contains(voltage), "{plan}: {after}");
        assert_eq!(after.contains(gas), has_gas, "{plan}: {after}");
        let own = run(&["evaluate", &path]).out;
        let (_, own) = own.split_once("\nCautions\n").unwrap();
        assert_eq!(after, own, "{plan}");
        let data: serde_json::Value = serde_json::from_str(&drive(&["--format", "json"])).unwrap();
        let said = data["cautions"].as_array().unwrap();
        let told = |words: &str| {
            let mut texts = said.iter().map(|c| c["text"].as_str().unwrap());
            texts.any(|text| text.starts_with(words))
        };
        assert!(told(voltage) && told(gas) == has_gas, "{plan}: {said:?}");
    }
}
