// A picture that finds no network waits in this browser's own database, also when the page is
// closed, and is sent once, with the age that it then has, when the page is open again.
"use strict";
const STORE = "waiting";
const MOST = 60e6; // bytes of all that may wait; a phone's picture has 3 to 8 million
const SLOW = 90000; // ms until an upload counts as one that found nobody

function stored(mode, act) {
  return new Promise((done, failed) => {
    const asked = indexedDB.open("warmside-pictures", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, {autoIncrement: true});
    asked.onerror = () => failed(asked.error);
    asked.onsuccess = () => {
      try {
        const doing = asked.result.transaction(STORE, mode);
        const found = act(doing.objectStore(STORE));
        doing.oncomplete = () => { asked.result.close(); done(found.result); };
        doing.onabort = doing.onerror = () => { asked.result.close(); failed(doing.error); };
      } catch (problem) { asked.result.close(); failed(problem); }
    };
  });
}

function bytes(entry) { return entry.files.reduce((sum, file) => sum + file.size, 0); }

async function recount() {
  try { pictures = await stored("readonly", store => store.count()); } catch { pictures = 0; }
  tell();
}

async function wait(entry) {
  const others = await stored("readonly", store => store.getAll());
  if ([entry, ...others].reduce((sum, one) => sum + bytes(one), 0) > MOST) throw new Error("too large");
  await stored("readwrite", store => store.add(entry));
  await recount();
}

function upload(entry, fields) {
  const body = new FormData();
  for (const [name, value] of fields) body.append(name, value);
  for (const file of entry.files) body.append("photo", file, file.name);
  return sendBody(entry.to, body, SLOW);
}

function keys() { return stored("readonly", store => store.getAllKeys()); }
function drop(key) { return stored("readwrite", store => store.delete(key)); }

// The answer to the last that was sent, with its reference; null where none could be.
async function sendPictures() {
  let last = null;
  for (const key of await keys()) {
    const entry = await stored("readonly", store => store.get(key));
    const answer = await upload(entry, later(entry));
    if (stays(answer)) break;
    last = {answer, ref: refOf(entry.fields)};
    if (!answer.ok) break;
    await drop(key);
  }
  await recount();
  return last;
}

async function forgetPicture(ref) {
  if (!pictures) return;
  for (const key of await keys()) {
    const entry = await stored("readonly", store => store.get(key));
    if (refOf(entry.fields) === ref) await drop(key);
  }
}

function saidAt(form, words) {
  let line = form.querySelector("p.said");
  if (!line) {
    line = document.createElement("p");
    line.setAttribute("role", "status");
    form.append(line);
  }
  line.className = "said caution";
  line.textContent = words;
}

async function keepOrSay(form, entry) {
  try {
    await wait(entry);
    renew(form);
    saidAt(form, "There is no network here: the picture waits on this phone.");
  } catch {
    enable(form, true);
    saidAt(form, "There is no network here, and this is too large to wait on this phone. "
      + "Nothing was sent: take it with the phone's own camera, and send it from there later.");
  }
}

document.addEventListener("submit", event => {
  const form = event.target;
  if (form.method !== "post" || form.getAttribute("action") !== "/picture") return;
  event.preventDefault();
  const all = [...new FormData(form, event.submitter)];
  const fields = all.filter(([, value]) => typeof value === "string");
  const files = all.filter(([, value]) => value instanceof File && value.name).map(([, file]) => file);
  const entry = {to: "/picture", fields, files, at: Date.now()};
  enable(form, false);
  saidAt(form, "Sending …");
  upload(entry, fields).then(async answer => {
    if (answer.status === 503) throw new Error("busy");
    show(answer, await answer.text());
  }).catch(() => keepOrSay(form, entry));
});

recount().then(send);
