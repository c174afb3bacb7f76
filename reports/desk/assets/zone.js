// Fills in the time zone of the browser where none was given yet. Without this script the field stays empty, which means this computer's.
"use strict";
(function () {
  const field = document.querySelector("input[name=time_zone]");
  if (field && field.value === "") field.value = Intl.DateTimeFormat().resolvedOptions().timeZone ?? "";
})();
