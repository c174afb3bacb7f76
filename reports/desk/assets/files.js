// Keeps files that wait to be sent, like pictures, in the browser's own store, by the fields of their form. What a form waits with is
// in send.js. The room for them is bounded, so that a phone does not fill up; what does not fit is not kept, and that is said.
"use strict";
globalThis.deskFiles = (function () {
  const most = 20, mostBytes = 120_000_000; // of all files together
  const orphan = 3_600_000; // milliseconds after which a file that no form waits with goes

  // open is the store; it fails where the browser has none, as in a private window of some.
  function open() {
    return new Promise((done, fail) => {
      const asked = indexedDB.open("desk-files", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("files");
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
  }

  // within runs one transaction and returns what the request in it has brought.
  async function within(mode, ask) {
    const db = await open();
    try {
      return await new Promise((done, fail) => {
        const work = db.transaction("files", mode);
        const asked = ask(work.objectStore("files"));
        work.oncomplete = () => done(asked.result);
        work.onabort = work.onerror = () => fail(work.error);
      });
    } finally {
      db.close();
    }
  }

  return {
    // keep keeps a file, and reports whether there was room.
    async keep(key, file) {
      try {
        const all = await within("readonly", (files) => files.getAll());
        if (all.length >= most || all.reduce((sum, x) => sum + x.blob.size, file.size) > mostBytes) return false;
        await within("readwrite", (files) => files.put({ blob: file, name: file.name, at: Date.now() }, key));
        return true;
      } catch {
        return false;
      }
    },
    // get is the file that was kept; undefined = there is none.
    async get(key) {
      try {
        return await within("readonly", (files) => files.get(key));
      } catch {
        return undefined;
      }
    },
    forget(key) {
      within("readwrite", (files) => files.delete(key)).catch(() => undefined);
    },
    // tidy drops files that no form waits with any more.
    async tidy(keys) {
      try {
        const kept = await within("readonly", (files) => files.getAllKeys());
        for (const key of kept.filter((x) => !keys.includes(x))) {
          const file = await this.get(key);
          if (file && Date.now() - file.at > orphan) this.forget(key);
        }
      } catch { /* there is no store */ }
    },
  };
})();
