// Fields: what the core says a person may set, as labels, boxes, lists, switches and sliders.
// What is typed goes to the core as text; numbers and units are the core's business.

import { el, rows, say, tell } from "./dom.js";

/** Brings the fields in `host` up to date. */
export function showFields(host, fields, bench) {
  rows(
    host,
    fields,
    field => `${field.kind} ${field.id}`,
    field => makeField(field, bench),
    (row, field) => row.update(field),
  );
}

function makeField(field, bench) {
  const make = { choice, switch: toggle }[field.kind] ?? entry;
  return make(field, bench);
}

/** Label above, control, unit, hint and problem below. */
function frame(field, control, ...more) {
  let now = field;
  const id = `field-${field.id}`;
  control.id = id;
  const label = el("label", { for: id });
  const unit = el("span", { class: "unit" });
  const hint = el("p", { class: "hint", id: `${id}-hint` });
  const problem = el("p", { class: "problem", id: `${id}-problem` });
  control.setAttribute("aria-describedby", `${hint.id} ${problem.id}`);
  const row = el("div", { class: `field ${field.kind}`, "data-field": field.id },
    label, el("div", { class: "control" }, control, unit), ...more, hint, problem);
  const complain = text => {
    say(problem, text);
    problem.hidden = !text;
    control.toggleAttribute("aria-invalid", Boolean(text));
    if (text) control.setAttribute("aria-invalid", "true");
  };
  /** What a field has come to, told after a change. */
  row.told = () => {
    const chosen = now.choices?.find(each => each.id === control.value)?.name;
    const value = now.kind === "switch" ? now.text : chosen ?? [now.text, now.unit].filter(Boolean).join(" ");
    tell(`${now.label}: ${value || "none"}`);
  };
  row.dress = fresh => {
    now = fresh;
    say(label, now.label);
    say(unit, now.unit);
    unit.hidden = !now.unit;
    // A slider shows its ends; elsewhere the range is only told when it is overstepped.
    const ends = typeof now.step === "number" ? `${now.min} to ${now.max} ${now.unit}` : "";
    const told = [ends, now.hint].filter(Boolean).join("; ");
    say(hint, told);
    hint.hidden = !told;
    control.disabled = now.enabled === false;
    complain(now.problem);
  };
  row.complain = complain;
  return row;
}

function entry(field, bench) {
  const numeric = field.kind === "number";
  const input = el("input", {
    type: "text",
    inputmode: numeric ? "decimal" : null,
    autocomplete: "off",
    spellcheck: "false",
  });
  const slider = numeric && typeof field.step === "number" ? slide(field, bench) : null;
  const row = frame(field, input, ...(slider ? [slider] : []));
  let settled = "";
  // Typed but not accepted: stays on screen, marked, until it is put right or Esc.
  let open = false;
  const enter = () => {
    if (input.value === settled) {
      open = false;
      return;
    }
    const refused = bench.enter(field.id, input.value);
    open = refused !== null;
    if (!open) return row.told();
    row.complain(refused);
    tell(refused);
  };
  input.addEventListener("input", () => { open = true; });
  input.addEventListener("change", enter);
  input.addEventListener("keydown", event => {
    if (event.key === "Enter") {
      enter();
      input.select();
    } else if (event.key === "Escape") {
      input.value = settled;
      open = false;
      row.complain(null);
    }
  });
  row.update = now => {
    const refusal = open ? row.querySelector(".problem").textContent : null;
    row.dress(now);
    if (slider) slider.update(now);
    if (open && input.value !== now.text) {
      if (refusal) row.complain(refusal);
      settled = now.text;
      return;
    }
    open = false;
    settled = now.text;
    if (input.value !== settled) input.value = settled;
  };
  return row;
}

/** A slider beside a number field: the truck follows, and one slide is one change. */
function slide(field, bench) {
  const slider = el("input", { type: "range" });
  slider.addEventListener("input", () => {
    const refused = bench.probeField(field.id, slider.value);
    if (refused !== null) tell(refused);
  });
  // Key after key is one gesture until the slider is left or dragged; each drag is one of its own.
  let byKey = false;
  let goesOn = false;
  slider.addEventListener("keydown", () => { byKey = true; });
  for (const other of ["pointerdown", "blur"]) {
    slider.addEventListener(other, () => { byKey = goesOn = false; });
  }
  slider.addEventListener("change", () => {
    if (goesOn) bench.goOn();
    goesOn = byKey;
    const refused = bench.enter(field.id, slider.value);
    if (refused === null) return slider.closest(".field").told();
    bench.refresh();
    tell(refused);
  });
  slider.update = now => {
    slider.setAttribute("aria-label", `${now.label}, slider`);
    slider.min = now.low;
    slider.max = now.high;
    slider.step = now.step;
    if (String(now.value) !== slider.value) slider.value = now.value;
    slider.setAttribute("aria-valuetext", `${now.text} ${now.unit}`);
    slider.disabled = now.enabled === false;
  };
  return slider;
}

function choice(field, bench) {
  const list = el("select");
  const row = frame(field, list);
  list.addEventListener("change", () => {
    const refused = bench.enter(field.id, list.value);
    if (refused === null) return row.told();
    bench.refresh();
    row.complain(refused);
    tell(refused);
  });
  row.update = now => {
    row.dress(now);
    options(list, now.choices ?? []);
    // The core names the choice by its id, or by its name where that is all there is.
    const chosen = now.choices?.find(each => each.id === now.value || each.id === now.text)
      ?? now.choices?.find(each => each.name === now.text);
    if (chosen) list.value = chosen.id;
  };
  return row;
}

/** Brings the options of a list up to date. */
export function options(list, choices) {
  rows(list, choices, each => each.id,
    each => el("option", { value: each.id }),
    (option, each) => say(option, each.name));
}

function toggle(field, bench) {
  const box = el("input", { type: "checkbox" });
  const row = frame(field, box);
  box.addEventListener("change", () => {
    const refused = bench.enter(field.id, box.checked ? "on" : "off");
    if (refused === null) return row.told();
    bench.refresh();
    row.complain(refused);
    tell(refused);
  });
  row.update = now => {
    row.dress(now);
    box.checked = now.value === true || now.value === 1 || now.text === "on";
  };
  return row;
}
