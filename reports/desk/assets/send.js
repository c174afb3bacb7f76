// Sends the forms of the desk, so that one that fails is seen. Without this script the browser sends them itself.
//
// A form that is sent waits in the tab's own store until the desk has answered, also while another page is opened. Its key
// makes sure that it is carried out once, however often it is sent. When it fails, a bar stays on every page that says what
// was not done and why, and sends it again at one tap. A machine that is not paired any more is led to the page for it,
// and what waits is sent when it is.
//
//   <form method="post" data-not="Not written down: Moss" data-is="Moss written down" data-stay>
//
// data-not and data-is are what the bar says when it failed and when it was done later; with data-stay the page that the
// form leads to takes the place of this one without a jump. Text of the desk is never read as HTML, but for its pages.
"use strict";
(function () {
  const patience = 10_000; // milliseconds that the desk has to answer
  const freshness = 3_600_000; // milliseconds for which a form is sent again unasked
  const store = "desk-waiting";
  const most = 32_000; // letters of a form that a browser goes on sending when its page is left

  // A waiting form: where it goes, its fields, what the bar says, when it was sent first, and why it failed; "" while it is
  // on its way, or until the machine is paired.
  let waiting = read();

  function read() {
    try {
      const all = JSON.parse(sessionStorage.getItem(store) ?? "[]");
      return Array.isArray(all) ? all : [];
    } catch {
      return [];
    }
  }

  // keep reports whether what waits outlives this page.
  function keep() {
    try {
      sessionStorage.setItem(store, JSON.stringify(waiting));
      return true;
    } catch {
      return false;
    }
  }

  function forget(item) {
    waiting = waiting.filter((other) => other !== item);
    keep();
  }

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.getAttribute("method") !== "post" || form.enctype === "multipart/form-data") return; // a file is the browser's to send
    const again = form.getAttribute("aria-busy") === "true";
    form.setAttribute("aria-busy", "true");
    if (again || form.querySelector("[name=key]")) event.preventDefault();
    if (again || !event.defaultPrevented) return; // a form without a key, like the one for the code, is the browser's
    const fields = new URLSearchParams();
    for (const [name, value] of new FormData(form)) fields.append(name, value);
    if (event.submitter?.name) fields.append(event.submitter.name, event.submitter.value);
    const action = form.getAttribute("action");
    const item = {
      action, fields: fields.toString(), at: Date.now(), why: "", stay: "stay" in form.dataset,
      not: form.dataset.not ?? (action === "/plan" ? "Not done" : "Not saved"), is: form.dataset.is ?? "Done",
    };
    // By its own button it is sent again, and for one dog the newest is meant.
    waiting = waiting.filter((other) => other.fields !== item.fields && !(item.stay && other.not === item.not));
    waiting.push(item);
    const rest = busy(event.submitter ?? form);
    send(item, true).finally(() => {
      form.removeAttribute("aria-busy");
      rest();
    });
  });

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
    keep();
    const stop = new AbortController();
    const late = setTimeout(() => stop.abort(), patience);
    let answer, text;
    try {
      answer = await fetch(item.action, {
        method: "POST", body: item.fields, signal: stop.signal, keepalive: item.fields.length < most,
        headers: { "Content-Type": "application/x-www-form-urlencoded", "Desk-Form": "script", Accept: "text/html" },
      });
      text = await answer.text();
    } catch {
      const why = stop.signal.aborted ? `The desk has not answered for ${patience / 1000} seconds.` : "The desk does not answer. Is it open, and on the same network?";
      return failed(item, why + " Trying again never does it twice.");
    } finally {
      clearTimeout(late);
    }
    const to = answer.headers.get("Desk-Go");
    if (answer.ok && to) return done(item, to, here);
    if (answer.status === 401) return pair(item);
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
    if (!here && !item.paired) { // sent unasked: the person does something else by now
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

  // show puts the main part of a page of the desk in the place of this one's.
  function show(page) {
    document.getElementById("main").replaceWith(document.importNode(page.getElementById("main"), true));
    document.title = page.title;
    document.dispatchEvent(new Event("desk:shown"));
    draw();
  }

  function pair(item) {
    item.paired = true;
    if (!keep()) return failed(item, "This phone is not paired with the desk any more: open the page /pair, then do it again.");
    location.assign("/pair");
    return false;
  }

  function failed(item, why) {
    item.why = why;
    keep();
    draw();
    return false;
  }

  async function again(here) {
    for (const item of [...waiting]) if (!(await send(item, here))) return;
  }

  // draw shows the bar with what was not done; said is what was done instead, later than asked.
  function draw(said) {
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
      what.textContent = failing.map((item) => item.not).join("; ") + ".";
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
      buttons.append(retry, button("Throw it away", "plain", () => {
        waiting = waiting.filter((item) => !item.why);
        keep();
        draw();
      }));
      bar.append(buttons);
    }
    document.body.append(bar);
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
      const first = document.querySelector("main p");
      for (const item of waiting) first?.after(line(item.not + ". It is sent as soon as this phone is paired."));
      return;
    }
    for (const item of waiting) if (!item.why && Date.now() - item.at > freshness) item.why = "That was more than an hour ago.";
    keep();
    draw();
    (async () => {
      for (const item of waiting.filter((x) => !x.why)) if (!(await send(item, false))) return;
    })();
  }

  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    waiting = read();
    if (document.querySelector("[aria-busy='true']")) location.reload(); // left while it was sending
    else begin();
  });
  begin();
})();
