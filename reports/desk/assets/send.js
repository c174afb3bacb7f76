// Sends the forms of the desk, so that one that fails is seen. Without this script the browser sends them itself.
//
// A form that is sent waits in the browser's own store until the desk has answered, also while another page is opened, or the
// browser closed. Its key makes sure that it is carried out once, however often it is sent. When it fails, a bar stays on
// every page that says what was not done and why, and sends it again at one tap. Work, what was seen of a coat and pictures (files.js) are kept
// and sent in their order as soon as the desk answers again; on Today the card says so, and the next dog's button follows.
// Where somebody else changed what a kept form is about, both versions are shown when the person asks. A machine that is
// not paired any more is led to the page for it, and what waits is sent when it is.
//
//   <form method="post" data-not="Not written down: Moss" data-is="Moss written down" data-stay>
//
// data-not and data-is are what the bar says when it failed and when it was done later; with data-stay the page that the
// form leads to takes the place of this one without a jump. Text of the desk is never read as HTML, but for its pages.
"use strict";
(function () {
  const patience = 10_000; // milliseconds that the desk has to answer
  const filePatience = 60_000; // and to a file
  const freshness = 3_600_000; // milliseconds for which a form that is not kept is sent again unasked
  const pause = 10_000; // milliseconds between two tries to send what is kept
  const store = "desk-waiting";
  const most = 32_000; // letters of a form that a browser goes on sending when its page is left

  // A waiting form: where it goes, its fields, the name of its file, what the bar says, when it was sent first, and why it failed; "" while it is
  // on its way, or until the machine is paired.
  let waiting = [], stored = true;
  waiting = read();

  // read are the forms that wait, also those of other pages of the desk.
  function read() {
    if (!stored) return waiting;
    try {
      const all = JSON.parse(localStorage.getItem(store) ?? "[]");
      return Array.isArray(all) ? all : [];
    } catch {
      return waiting;
    }
  }

  // keep reports whether what waits outlives this page.
  function keep() {
    try {
      localStorage.setItem(store, JSON.stringify(waiting));
      stored = true;
    } catch {
      stored = false;
    }
    return stored;
  }

  // put keeps how a form stands that waits still.
  function put(item) {
    waiting = read().map((other) => other.fields === item.fields ? item : other);
    return keep();
  }

  function forget(item) {
    waiting = read().filter((other) => other.fields !== item.fields);
    keep();
    if (item.file) deskFiles.forget(item.fields);
    inHand.delete(item.fields);
  }

  const inHand = new Map(); // files of forms that this page sends

  // kept reports whether a form is of the work at the table, which outlives an hour and is sent unasked.
  const kept = (item) => item.action === "/work" || item.action.startsWith("/dogs/") || item.file;

  // unheard reports whether a form waits because the desk did not answer, and nothing is wrong with it.
  const unheard = (item) => kept(item) && item.why !== "" && item.off && !item.gone;

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.getAttribute("method") !== "post" || form.enctype === "multipart/form-data" && !("file" in form.dataset)) return; // a file of a list or a copy is the browser's to send
    const again = form.getAttribute("aria-busy") === "true";
    form.setAttribute("aria-busy", "true");
    if (again || form.querySelector("[name=key]")) event.preventDefault();
    if (again || !event.defaultPrevented) return; // a form without a key, like the one for the code, is the browser's
    const fields = new URLSearchParams();
    let file;
    for (const [name, value] of new FormData(form)) {
      if (value instanceof File) file = value;
      else fields.append(name, value);
    }
    if (file) fields.append("file-of", [file.name, file.size, file.lastModified].join("|")); // a page that was kept has one key for all its pictures
    if (event.submitter?.name) fields.append(event.submitter.name, event.submitter.value);
    const action = form.getAttribute("action");
    const item = {
      action, fields: fields.toString(), at: Date.now(), why: "", stay: "stay" in form.dataset,
      not: form.dataset.not ?? (action === "/plan" ? "Not done" : "Not saved"), is: form.dataset.is ?? "Done", off: false,
      card: event.submitter?.value === "drop" ? "" : card(fields), file: file?.name ?? "",
    };
    if (file) inHand.set(item.fields, file);
    // By its own button it is sent again, and for one dog the newest is meant.
    waiting = read().filter((other) => other.fields !== item.fields && !(item.stay && other.not === item.not && other.card === item.card));
    const rest = busy(event.submitter ?? form);
    ready(item, file).then(() => send(item, true)).finally(() => {
      form.removeAttribute("aria-busy");
      rest();
    });
    if (!file) {
      waiting.push(item);
      keep();
    }
  });

  // ready puts a form with a file among those that wait, its file first.
  async function ready(item, file) {
    if (!file) return;
    item.loose = !(await deskFiles.keep(item.fields, file));
    waiting = read();
    waiting.push(item);
    keep();
  }

  // card names the work that fields are about: the dog, the duty, the day and the hands; empty = none.
  function card(fields) {
    return fields.get("dog") && fields.get("on") ? ["dog", "duty", "on", "hands"].map((name) => fields.get(name) ?? "").join("|") : "";
  }

  // busy makes a button say that it is at work, and returns what makes it as it was.
  function busy(part) {
    const was = [...part.childNodes];
    part.setAttribute("aria-busy", "true");
    if (part instanceof HTMLButtonElement) part.replaceChildren("Sending");
    return () => {
      part.removeAttribute("aria-busy");
      if (part instanceof HTMLButtonElement) part.replaceChildren(...was);
    };
  }

  // send sends a form and reports whether it is done with. here says that the person waits for its answer on this page.
  async function send(item, here) {
    item.why = "";
    item.off = false;
    put(item);
    const stop = new AbortController();
    const wait = item.file ? filePatience : patience;
    const late = setTimeout(() => stop.abort(), wait);
    const headers = { "Desk-Form": "script", Accept: "text/html" };
    let body = item.fields, answer, text;
    if (item.file) {
      const file = inHand.get(item.fields) ?? (await deskFiles.get(item.fields))?.blob;
      if (!file) {
        clearTimeout(late);
        item.gone = true;
        return failed(item, "The picture is not on this phone any more. Throw this away, and choose it again.");
      }
      body = new FormData();
      for (const [name, value] of new URLSearchParams(item.fields)) body.append(name, value);
      body.append("file", file, item.file);
    } else headers["Content-Type"] = "application/x-www-form-urlencoded";
    try {
      answer = await fetch(item.action, {
        method: "POST", body, signal: stop.signal, keepalive: !item.file && item.fields.length < most, headers,
      });
      text = await answer.text();
    } catch {
      item.off = true;
      const why = stop.signal.aborted ? `The desk has not answered for ${wait / 1000} seconds.` : "The desk does not answer. Is it open, and on the same network?";
      return failed(item, why + (item.loose ? " There is no room to keep the picture on this phone: leave this page open until it is sent, or take it again." : " Trying again never does it twice."));
    } finally {
      clearTimeout(late);
    }
    const to = answer.headers.get("Desk-Go");
    if (answer.ok && to) return done(item, to, here);
    if (answer.status === 401) return pair(item);
    if (answer.status === 503) item.off = true;
    if ([409, 422].includes(answer.status) && !here && !item.paired) {
      return failed(item, answer.status === 409 ? "Somebody else changed what it is about. Try again shows both versions." : "Something in it can't be taken. Try again shows what.");
    }
    const page = new DOMParser().parseFromString(/html/.test(answer.headers.get("Content-Type")) ? text : "", "text/html");
    if ([200, 409, 422].includes(answer.status) && page.getElementById("main")) {
      forget(item);
      show(page);
      scrollTo(0, 0);
      document.querySelector("[aria-invalid='true']")?.focus();
      return true;
    }
    return failed(item, reason(answer, page, text));
  }

  // reason is why the desk did not do it, in its own words where it has some.
  function reason(answer, page, text) {
    const said = page.querySelector("main [role='alert']")?.textContent.trim() ?? (/plain/.test(answer.headers.get("Content-Type")) ? text.split("\n")[0].trim() : "");
    if (said) return said.slice(0, 300);
    if (answer.status === 403) return "The desk refuses it.";
    if (answer.status === 404) return "The desk does not have that any more.";
    if (answer.ok) return "Something else than the desk answers here.";
    return `The desk could not do it (${answer.status}).`;
  }

  async function done(item, to, here) {
    forget(item);
    const address = new URL(to, location.href);
    if (address.origin !== location.origin) return true;
    if (!here && !item.paired && !(item.stay && idle())) { // sent unasked: the person does something else by now
      draw(item.is + ".");
      return true;
    }
    if (item.stay && address.pathname === location.pathname) {
      try {
        const answer = await fetch(address, { headers: { Accept: "text/html" } });
        const page = new DOMParser().parseFromString(await answer.text(), "text/html");
        if (answer.ok && page.getElementById("main")) {
          show(page);
          history.replaceState(null, "", address);
          document.querySelector(".now[tabindex]")?.focus({ preventScroll: true });
          return true;
        }
      } catch {
        draw(item.is + ". The page is as it was before: the desk does not answer any more.");
        return true;
      }
    }
    const same = address.pathname + address.search === location.pathname + location.search;
    location.assign(address);
    if (same) location.reload();
    return true;
  }

  // idle reports whether nothing is typed or chosen in the page that would be lost with it.
  function idle() {
    return !document.activeElement?.matches("input, select, textarea") && !document.querySelector("main :checked:is([type=radio]), [data-typed]");
  }

  // show puts the main part of a page of the desk in the place of this one's.
  function show(page) {
    document.getElementById("main").replaceWith(document.importNode(page.getElementById("main"), true));
    document.title = page.title;
    document.dispatchEvent(new Event("desk:shown"));
    draw();
  }

  function pair(item) {
    item.paired = true;
    if (!put(item)) return failed(item, "This phone is not paired with the desk any more: open the page /pair, then do it again.");
    location.assign("/pair");
    return false;
  }

  function failed(item, why) {
    item.why = why;
    put(item);
    draw();
    return false;
  }

  let sending = false;

  // again sends what waits, in its order, until the desk does not answer; what somebody must look at does not hold up the rest.
  async function again(here, which = () => true) {
    if (sending) return;
    sending = true;
    try {
      waiting = read();
      for (const item of [...waiting].filter(which)) {
        if (!(await send(item, here)) && (item.off || item.paired || here)) return;
      }
    } finally {
      sending = false;
    }
  }

  // mark shows on the cards of Today what is kept on this phone, and brings the next dog's button into the bar.
  function mark() {
    const bar = document.querySelector(".day-thumb");
    if (!bar) return;
    for (const note of document.querySelectorAll(".kept-words")) note.remove();
    for (const was of document.querySelectorAll(".task.kept")) was.classList.remove("kept");
    const cards = new Map();
    for (const form of document.querySelectorAll(".task form")) {
      const of = card(new FormData(form));
      if (of && form.querySelector("[value=tick]")) cards.set(of, form);
    }
    for (const item of waiting.filter((x) => x.card && unheard(x))) {
      const task = cards.get(item.card)?.closest(".task");
      if (!task) continue;
      task.classList.add("kept");
      const words = line("On this phone. It is sent as soon as the desk answers.");
      words.className = "kept-words";
      words.append(button("Undo", "plain", () => {
        forget(item);
        draw();
      }));
      task.append(words);
    }
    const first = document.querySelector("#next"), own = first && cards.get(card(new FormData(first)))?.closest(".task");
    const shown = bar.querySelector("[data-next]");
    const gone = own?.classList.contains("kept") ?? false;
    if (first) first.hidden = gone;
    if (!gone) {
      shown?.remove();
      return;
    }
    const next = [...document.querySelectorAll(".task:not(.done, .kept) button[value=tick]:not([hidden])")][0];
    const task = next?.closest(".task");
    if (shown && shown.dataset.next === (next?.form.id ?? "")) return; // it stays as it is under the thumb
    shown?.remove();
    const b = document.createElement(next ? "button" : "p");
    b.dataset.next = next?.form.id ?? "";
    if (next) {
      b.setAttribute("form", next.form.id);
      b.name = "do";
      b.value = "tick";
      b.textContent = "Done: " + [task.querySelector("h2 a")?.textContent, new FormData(next.form).get("duty")].filter(Boolean).join(" ");
      b.disabled = true; // a second tap finds nothing to press
      setTimeout(() => { b.disabled = false; }, 2500);
    } else {
      b.textContent = "All of the day is on this phone";
    }
    first.after(b);
  }

  // draw shows the bar with what was not done; said is what was done instead, later than asked.
  function draw(said) {
    mark();
    document.querySelector(".waiting")?.remove();
    const failing = waiting.filter((item) => item.why);
    if (failing.length === 0 && !said) return;
    const bar = document.createElement("aside");
    bar.className = "waiting";
    bar.setAttribute("role", failing.length ? "alert" : "status");
    bar.setAttribute("aria-label", "What was sent");
    if (said) bar.append(line(said));
    if (failing.length) {
      const what = document.createElement("strong");
      what.textContent = (failing.length > 1 ? failing.length + " waiting. " : "") + failing.map((item, n) => n ? item.not.replace(/^Not written down: /, "") : item.not).join("; ") + ".";
      const why = line(" " + failing[failing.length - 1].why);
      why.prepend(what);
      bar.append(why);
      const retry = button("Try again", "", async () => {
        if (retry.getAttribute("aria-busy") === "true") return;
        const rest = busy(retry);
        await again(true);
        rest();
      });
      const buttons = document.createElement("p");
      buttons.append(retry);
      bar.append(buttons);
      if (failing.every(unheard)) { // it is safe where it is: the bar is out of the thumb's way, and no tap throws all of it away
        bar.classList.add("calm");
        bar.append(each(failing));
      } else {
        buttons.append(button("Throw it away", "plain", () => {
          for (const item of read().filter((x) => x.why)) forget(item);
          draw();
        }));
      }
    }
    if (bar.classList.contains("calm")) document.querySelector("main").before(bar);
    else document.body.append(bar);
  }

  // each lists what is kept, to be thrown away one by one.
  function each(items) {
    const all = document.createElement("details"), head = document.createElement("summary"), list = document.createElement("ul");
    head.textContent = "What waits";
    for (const item of items) {
      const row = document.createElement("li"), name = item.is.replace(/ written down$/, "");
      row.append(name + ", " + new Date(item.at).toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit" }) + " ");
      const drop = button("Throw it away", "plain", () => {
        forget(item);
        draw();
      });
      drop.setAttribute("aria-label", "Throw it away: " + name);
      row.append(drop);
      list.append(row);
    }
    all.append(head, list);
    return all;
  }

  function line(text) {
    const p = document.createElement("p");
    p.textContent = text;
    return p;
  }

  function button(text, kind, tapped) {
    const b = document.createElement("button");
    b.type = "button";
    b.className = kind;
    b.textContent = text;
    b.addEventListener("click", tapped);
    return b;
  }

  // What was on its way when the last page was left, or waited for the pairing, goes on; what is old only when asked.
  function begin() {
    if (location.pathname === "/pair") {
      if (isSecureContext && "caches" in window) caches.delete("desk-pages"); // who is not paired reads nothing that was kept
      const first = document.querySelector("main p");
      for (const item of waiting) first?.after(line(item.not + ". It is sent as soon as this phone is paired."));
      return;
    }
    deskFiles.tidy(waiting.map((item) => item.fields));
    for (const item of waiting) if (!item.why && !kept(item) && Date.now() - item.at > freshness) item.why = "That was more than an hour ago.";
    keep();
    draw();
    again(false, (item) => !item.why || unheard(item));
  }

  // What is kept is sent when the network or the page comes back, and now and then meanwhile.
  const retry = () => {
    if (location.pathname !== "/pair" && document.visibilityState === "visible" && read().some(unheard)) again(false, unheard);
  };
  setInterval(retry, pause);
  addEventListener("online", retry);
  document.addEventListener("visibilitychange", retry);
  addEventListener("storage", (event) => { // another page of the desk sent or kept something
    if (event.key !== store) return;
    waiting = read();
    draw();
  });

  // The worker keeps the pages of the day, where the browser allows one: on this machine, or with encryption.
  if ("serviceWorker" in navigator && isSecureContext) {
    navigator.serviceWorker.register("/worker.js").then(() => navigator.serviceWorker.ready).then((registered) => {
      if (location.pathname !== "/today" || document.body.dataset.kept) return;
      const pages = [...document.querySelectorAll(".task a[href^='/work'], .task h2 a, .day-thumb nav a")].map((a) => a.getAttribute("href"));
      registered.active.postMessage({ keep: [location.pathname + location.search, "/papers/sheet.html", ...new Set(pages)] });
    }, () => undefined); // without it the open pages work on
  }
  if (document.body.dataset.kept) {
    const said = line("The desk does not answer. This is the page as it was " + document.body.dataset.kept + ".");
    said.className = "kept-page";
    said.setAttribute("role", "status");
    document.querySelector("main").prepend(said);
  }

  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    waiting = read();
    if (document.querySelector("[aria-busy='true']")) location.reload(); // left while it was sending
    else begin();
  });
  begin();
})();
