// Without this file every form works. With it a post that finds no network waits in the open page,
// and is sent once, with the age that it then has.
"use strict";
const KEY = "warmside-waiting";
const SOON = 8000; // ms until a post counts as one that found nobody
const AGAIN = 10000;

function waiting() {
  try { return JSON.parse(localStorage.getItem(KEY) || "[]"); } catch { return []; }
}
function keep(list) { localStorage.setItem(KEY, JSON.stringify(list)); }

function tell() {
  const count = waiting().length;
  let box = document.getElementById("waiting");
  if (!count) { if (box) box.remove(); return; }
  if (!box) {
    box = document.createElement("p");
    box.id = "waiting";
    box.className = "caution";
    box.setAttribute("role", "status");
    document.getElementById("main").prepend(box);
  }
  box.textContent = (count === 1 ? "1 entry waits" : count + " entries wait")
    + " on this phone until sent. Keep this page open.";
}

async function post(to, fields) {
  const timer = new AbortController();
  const end = setTimeout(() => timer.abort(), SOON);
  try {
    return await fetch(to, {method: "POST", body: new URLSearchParams(fields), signal: timer.signal});
  } finally { clearTimeout(end); }
}

function show(answer, text) {
  if (answer.redirected) { location.replace(answer.url); return; }
  document.open();
  document.write(text);
  document.close();
}

// Nobody is to lose what he is typing, or a question that is to be answered first.
function isBusy() {
  const typed = document.querySelectorAll("main input:not([type=hidden]):not([type=checkbox])");
  return [...typed].some(field => field.value !== field.defaultValue);
}
function isAsked() { return document.querySelector("input[name=confirm]") !== null; }

let sending = false;
async function send() {
  if (sending || !waiting().length || isAsked()) return;
  sending = true;
  let last = null;
  try {
    for (let list = waiting(); list.length; list = waiting()) {
      const [first] = list;
      const age = Math.max(0, Math.round((Date.now() - first.at) / 1000));
      const answer = await post(first.to, [...first.fields, ["age", String(age)]]);
      if (answer.status >= 500) break; // the file is busy or gone: it waits on
      keep(waiting().slice(1));
      last = answer;
      if (!answer.ok) break; // a doubt or a refusal is shown before the next is sent
    }
  } catch { /* still away */ } finally { sending = false; tell(); }
  if (last && !(last.ok && isBusy())) show(last, await last.text());
}

// What waits has its reference; the form is ready for another entry, with another.
function renew(form) {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  form.reset();
  form.elements.ref.value = Array.from(bytes, b => b.toString(16).padStart(2, "0")).join("");
  for (const button of form.querySelectorAll("button")) button.disabled = false;
}

document.addEventListener("submit", event => {
  const form = event.target;
  const to = form.getAttribute("action");
  if (form.method !== "post" || !["/record", "/settle"].includes(to)) return;
  event.preventDefault();
  const fields = [...new FormData(form, event.submitter)].map(([name, value]) => [name, String(value)]);
  const buttons = form.querySelectorAll("button");
  for (const button of buttons) button.disabled = true;
  const at = Date.now();
  post(to, fields).then(async answer => {
    if (answer.status === 503) throw new Error("busy"); // it waits, as if nobody were there
    show(answer, await answer.text());
  }).catch(() => {
    keep([...waiting(), {to, fields, at}]);
    (form.closest(".task") || form).classList.add("waits");
    if (to === "/record" && form.elements.ref) renew(form);
    tell();
  });
});

addEventListener("online", send);
addEventListener("pageshow", () => { tell(); send(); });
setInterval(send, AGAIN);
tell();
