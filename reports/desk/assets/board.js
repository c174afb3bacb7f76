// Walks the board by the arrow keys, and says below it what the cell under the pointer or the focus holds.
//
//   <table class="board"> ... <td><a href="/week?...">...</a><a class="mark" href="/shows?...">...</a></td>
//   <p data-board-says></p>
//
// Only the links of one cell are in the order of the tab key. Without this script all of them are.
"use strict";
(function () {
  const rows = (board) => [...board.querySelectorAll("tr")].map((row) => [...row.cells].filter((cell) => cell.querySelector("a") && cell.checkVisibility())).filter((row) => row.length > 0);

  function only(board, cell) {
    for (const link of board.querySelectorAll("td a, th a")) link.tabIndex = cell.contains(link) ? 0 : -1;
  }

  function look() {
    for (const board of document.querySelectorAll(".board")) {
      const first = board.querySelector("th a, td a");
      if (first && !board.querySelector("a[tabindex='0']")) only(board, first.closest("th, td"));
    }
  }

  function go(board, cell) {
    only(board, cell);
    cell.querySelector("a").focus();
  }

  const steps = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0], Home: [0, -Infinity], End: [0, Infinity], PageUp: [-10, 0], PageDown: [10, 0] };

  document.addEventListener("keydown", (event) => {
    const cell = event.target.closest?.(".board td, .board th");
    const step = steps[event.key];
    if (!cell || !step || event.altKey || event.ctrlKey || event.metaKey) return;
    const board = cell.closest(".board");
    const all = rows(board);
    const y = all.findIndex((row) => row.includes(cell));
    if (y < 0) return;
    event.preventDefault();
    const within = (n, most) => Math.max(0, Math.min(most, n));
    const row = all[within(y + step[0], all.length - 1)];
    const shift = row.length - all[y].length; // the foot's first cell is no link
    go(board, row[within(all[y].indexOf(cell) + step[1] + shift, row.length - 1)]);
  });

  function says(event) {
    const place = document.querySelector("[data-board-says]");
    const link = event.target.closest?.(".board a[aria-label]");
    if (place && link) place.textContent = link.getAttribute("aria-label");
  }

  document.addEventListener("focusin", (event) => {
    says(event);
    const cell = event.target.closest?.(".board td, .board th");
    if (cell) only(cell.closest(".board"), cell);
  });
  document.addEventListener("pointerover", says);
  document.addEventListener("desk:shown", look);
  look();
})();
