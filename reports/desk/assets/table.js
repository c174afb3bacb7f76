// What wet hands need: a clock that starts with the first tap on a dog and fills in the minutes, and shares and minutes stepped by
// a tap. Without this script the same buttons are answered by the desk, and the minutes are those planned or typed.
//
//   <div data-timer="DAY|HANDS|DOG" data-planned="35"> <input name="minutes"> <button data-clock> <output> </div>
//   <button data-minutes="-5"> steps the field beside it; <fieldset data-steps="0=0|0.05=1 in 20|.."> holds the steps of shares
"use strict";
(function () {
  const store = "desk-clock";
  const minute = 60_000;
  const longest = 12 * 60 * minute; // a clock that ran for longer was forgotten
  const little = 1 / 4, much = 3; // of what was planned: the clock was begun late, or forgotten

  // The clock that runs or is held: of which work, since when, and for how long before it was held last.
  function clock() {
    try {
      const c = JSON.parse(localStorage.getItem(store));
      return c && typeof c.of === "string" && Date.now() - c.at < longest ? c : null;
    } catch {
      return null;
    }
  }

  function keep(c) {
    try {
      if (c) localStorage.setItem(store, JSON.stringify(c));
      else localStorage.removeItem(store);
    } catch {
      return; // it is not kept: the minutes are typed
    }
  }

  const ran = (c) => c.before + (c.runs ? Date.now() - c.at : 0);

  function start(of) {
    const c = clock();
    keep({ of, at: Date.now(), before: c?.of === of ? ran(c) : 0, runs: true });
    draw();
  }

  function hold(c) {
    keep({ of: c.of, at: Date.now(), before: ran(c), runs: false });
    draw();
  }

  function draw() {
    const c = clock();
    for (const place of document.querySelectorAll("[data-timer]")) {
      const mine = c?.of === place.dataset.timer ? c : null;
      const [field, toggle, said] = ["input", "[data-clock]", "output"].map((css) => place.querySelector(css));
      for (const hidden of place.querySelectorAll("button[hidden]")) hidden.hidden = false;
      toggle.textContent = !mine ? "Start the clock" : mine.runs ? "Hold the clock" : "Go on with the clock";
      let words = "";
      if (mine) {
        const gone = Math.round(ran(mine) / minute), planned = Number(place.dataset.planned);
        const fits = gone >= planned * little && gone <= planned * much;
        words = `${mine.runs ? "The clock runs" : "The clock is held"}: ${gone} min.`;
        if (!fits && gone > 0 && !field.dataset.typed) words += ` ${planned} min as planned are written down unless you change them.`;
        if (!field.dataset.typed) field.value = fits && gone > 0 ? String(gone) : "";
      }
      if (said.textContent !== words) said.textContent = words;
    }
  }

  // step puts the next share of the ladder into a field; what is not a share stays.
  function step(field, ladder, more) {
    const rungs = ladder.split("|").map((r) => r.split("="));
    const now = shareOf(field.value, rungs);
    if (now === null) return;
    const near = 0.001;
    const next = more ? rungs.find(([s]) => Number(s) > now + near) : rungs.findLast(([s]) => Number(s) < now - near);
    field.value = (next ?? rungs.at(more ? -1 : 0))[1];
  }

  function shareOf(said, rungs) {
    const words = said.trim().toLowerCase().replace(/^about /, "").replace(",", ".");
    if (words === "") return 0;
    const named = rungs.find((r) => r[1] === words) ?? { all: [1], half: [0.5], none: [0] }[words];
    if (named) return Number(named[0]);
    const parts = /^([\d.]+) ?(?:\/| in ) ?([\d.]+)$/.exec(words) ?? /^([\d.]+)()%?$/.exec(words);
    if (!parts) return null;
    const share = Number(parts[1]) / (parts[2] ? Number(parts[2]) : words.endsWith("%") ? 100 : 1);
    return share >= 0 && share <= 1 ? share : null;
  }

  document.addEventListener("click", (event) => {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    if (!button) return;
    const place = button.closest("[data-timer]"), steps = button.closest("[data-steps]");
    if (place && "clock" in button.dataset) {
      const c = clock();
      if (c?.of === place.dataset.timer && c.runs) hold(c);
      else start(place.dataset.timer);
    } else if (place && button.dataset.minutes) {
      const field = place.querySelector("input");
      const now = Number.parseFloat(field.value) || Number(place.dataset.planned);
      field.value = String(Math.max(1, now + Number(button.dataset.minutes)));
      field.dataset.typed = "yes";
      draw();
    } else if (steps) {
      const [verb, ...area] = button.value.split(" ");
      const name = "share." + area.join(" ");
      const all = [...steps.querySelectorAll("input[name^='share.']")], at = all.findIndex((f) => f.name === name);
      if (at < 0) return;
      event.preventDefault();
      if (verb === "after") {
        for (const field of all.slice(at + 1)) field.value = "0";
        button.form.querySelector("[name=stopped]").checked = true;
      } else {
        step(all[at], steps.dataset.steps, verb === "more");
      }
    }
  });

  // sum says what the shares of a coat's layers make together.
  function sum(place) {
    let all = 0, rest = false, some = false;
    for (const row of place.querySelectorAll(".layer")) {
      const [day, share] = row.querySelectorAll("input");
      if (!day.value && !share.value) continue;
      some = true;
      if (!share.value) rest = true;
      else all += shareOf(share.value, []) ?? 0;
    }
    const percent = (x) => Math.round(100 * x) + " %";
    let words = "";
    if (some && all > 1.001) words = `Together ${percent(all)}: that is more than all of it.`;
    else if (some && rest) words = all > 0 ? `The layer without a share is the rest, ${percent(1 - all)}.` : "All of it on this day.";
    else if (some && all < 0.999) words = `Together ${percent(all)}. The other ${percent(1 - all)} has no day: it counts as longer than any pull that is known.`;
    else if (some) words = "Together all of it.";
    place.querySelector("output").textContent = words;
  }

  document.addEventListener("input", (event) => {
    const layers = event.target.closest("[data-sum]");
    if (layers) sum(layers);
    const place = event.target.closest("[data-timer]");
    if (place) event.target.dataset.typed = "yes";
  });

  // The first tap on an area starts the clock of its dog.
  document.addEventListener("change", (event) => {
    const place = event.target.matches("[type=radio][name^='seen.'], [type=radio][name^='did.']") && event.target.closest(".task")?.querySelector("[data-timer]");
    if (place && clock()?.of !== place.dataset.timer) start(place.dataset.timer);
  });

  // What is sent has its minutes; the clock is for the next dog then.
  document.addEventListener("submit", (event) => {
    const place = [...document.querySelectorAll("[data-timer]")].find((p) => p.querySelector("input").form === event.target);
    if (place && clock()?.of === place.dataset.timer) keep(null);
  });

  document.addEventListener("desk:shown", draw);
  addEventListener("pageshow", draw);
  setInterval(draw, minute / 6);
  draw();
})();
