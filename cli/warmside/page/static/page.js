// Without this file every form works. With it a post that finds no network waits in the open page,
// and is sent once, with the age that it then has.
"use strict";
const KEY = "warmside-waiting";
const SOON = 8000; // ms until a post counts as one that found nobody
const AGAIN = 10000;

function waiting() {
  try { return JSON.parse(localStorage.getItem(KEY) || "[]"); } catch { return []; }
}
let pictures = 0; // that wait, as pictures.js counts them
let unpaired = false;
function keep(list) { localStorage.setItem(KEY, JSON.stringify(list)); }

function tell() {
  const said = [counted(waiting().length, "entry", "entries"), counted(pictures, "picture", "pictures")];
  const count = waiting().length + pictures;
  let box = document.getElementById("waiting");
  if (!count) { if (box) box.remove(); return; }
  if (!box) {
    box = document.createElement("p");
    box.id = "waiting";
    box.className = "caution";
    box.setAttribute("role", "status");
    document.getElementById("main").prepend(box);
  }
  box.textContent = said.filter(Boolean).join(" and ") + (count === 1 ? " waits" : " wait")
    + " on this phone until sent. Keep this page open."
    + (unpaired ? " This phone is not paired any more: pair it again." : "");
}
function counted(number, one, more) { return number ? `${number} ${number === 1 ? one : more}` : ""; }

async function sendBody(to, body, soon) {
  const timer = new AbortController();
  const end = setTimeout(() => timer.abort(), soon);
  try {
    return await fetch(to, {method: "POST", body, signal: timer.signal});
  } finally { clearTimeout(end); }
}
function post(to, fields) { return sendBody(to, new URLSearchParams(fields), SOON); }

// What waited longer than a pairing goes with the token of the page that is open now.
function later(entry) {
  const mine = document.querySelector("input[name=token]");
  const fields = entry.fields.map(([name, value]) => [name, name === "token" && mine ? mine.value : value]);
  return [...fields, ["age", String(Math.max(0, Math.round((Date.now() - entry.at) / 1000)))]];
}
// The file is busy or gone, or the phone is not paired any more: it waits on.
function stays(answer) {
  unpaired = answer.status === 401 || answer.status === 403;
  return unpaired || answer.status >= 500;
}

function show(answer, text) {
  if (answer.redirected) { location.replace(answer.url); return; }
  const page = new DOMParser().parseFromString(text, "text/html");
  document.title = page.title;
  document.body.replaceWith(document.adoptNode(page.body));
  scrollTo(0, 0);
  tell();
}

// Nobody is to lose what he is typing, or a question that is to be answered first.
function isBusy() {
  const typed = document.querySelectorAll("main input:not([type=hidden]):not([type=checkbox])");
  return [...typed].some(field => field.value !== field.defaultValue);
}
function isAsked() { return document.querySelector("input[name=confirm]") !== null; }

let sending = false;
async function send() {
  if (sending || !(waiting().length || pictures) || isAsked()) return;
  sending = true;
  let last = null;
  try {
    for (let list = waiting(); list.length; list = waiting()) {
      const [first] = list;
      const answer = await post(first.to, later(first));
      if (stays(answer)) break;
      keep(waiting().slice(1));
      last = answer;
      if (!answer.ok) break; // a doubt or a refusal is shown before the next is sent
    }
    if (!waiting().length && pictures && (!last || last.ok)) last = await sendPictures() || last;
  } catch { /* still away */ } finally { sending = false; tell(); }
  if (last && !(last.ok && isBusy())) show(last, await last.text());
}

// What waits has its reference; the form is ready for another entry, with another.
function renew(form) {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  form.reset();
  form.elements.ref.value = Array.from(bytes, b => b.toString(16).padStart(2, "0")).join("");
  enable(form, true);
}
function enable(form, may) {
  for (const button of form.querySelectorAll("button")) button.disabled = !may;
}

document.addEventListener("submit", event => {
  const form = event.target;
  const to = form.getAttribute("action");
  if (form.method !== "post" || !["/record", "/settle"].includes(to)) return;
  event.preventDefault();
  const fields = [...new FormData(form, event.submitter)].map(([name, value]) => [name, String(value)]);
  enable(form, false);
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
