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
    assert!(
        table.out.contains(" kWh") && table.out.contains("does not make it")
            || table.out.contains(" x ")
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
            vec!["charge", plan, "--inlet", "no-such-plug"],
            "no-such-plug",
        ),
    ] {
        let ran = run(&command);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{command:?}");
        assert!(ran.err.contains(word), "{command:?}: {}", ran.err);
    }
}
