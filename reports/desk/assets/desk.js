// Follows a stream of the server's and writes what it tells into the page.
//
//   <section data-stream="/plan/events">
//     <output data-event="progress">planning</output>   the text of each event named progress
//     <progress data-event="share" max="100"></progress> the number of each event named share
//   </section>
//
// An event named "go" carries the address of a page of the desk, which is then opened; one named "end" opens the page
// again, unless something was typed into it or is being sent; one named "over" leaves the page as it is. Text is never read as HTML.
"use strict";
(function () {
  const streams = new Map();
  let typed = false;

  function follow(place) {
    const source = new EventSource(place.dataset.stream);
    streams.set(place, source);
    const names = new Set();
    for (const part of place.querySelectorAll("[data-event]")) names.add(part.dataset.event);
    for (const name of names) source.addEventListener(name, (event) => tell(place, name, event.data));
    source.addEventListener("go", (event) => {
      leave(place);
      const address = new URL(event.data, location.href);
      if (address.origin === location.origin) location.assign(address.href);
    });
    source.addEventListener("over", () => leave(place));
    source.addEventListener("end", () => {
      leave(place);
      const told = document.querySelector("[aria-invalid='true'], [role='alert'], [aria-busy='true']"); // what is wrong with a form, or is being sent
      if (!typed && !told) location.replace(location.pathname + location.search);
    });
  }

  function tell(place, name, text) {
    for (const part of place.querySelectorAll("[data-event]")) {
      if (part.dataset.event !== name) continue;
      if (part instanceof HTMLProgressElement) part.value = Number(text);
      else if (part.textContent !== text) part.textContent = text;
    }
  }

  function leave(place) {
    streams.get(place)?.close();
    streams.delete(place);
  }

  function look() {
    for (const place of streams.keys()) if (!place.isConnected) leave(place);
    for (const place of document.querySelectorAll("[data-stream]")) if (!streams.has(place)) follow(place);
  }

  document.addEventListener("input", () => { typed = true; });
  addEventListener("pagehide", () => { for (const place of [...streams.keys()]) leave(place); });
  addEventListener("pageshow", look);
  document.addEventListener("desk:shown", look);
  look();
})();
