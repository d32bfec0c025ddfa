// Without this file every form works. With it a post that finds no network waits on the phone, and
// is sent once, with the age that it then has. What the keeper is asked about it, or is told against
// it, comes again whenever the page is opened, until he has answered: only then it waits no more.
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
function refOf(fields) { return (fields.find(([name]) => name === "ref") || [])[1]; }
function others(ref) { return waiting().filter(entry => refOf(entry.fields) !== ref); }
async function forget(ref) {
  keep(others(ref));
  await forgetPicture(ref);
}

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
    + (isAsked() ? " on this phone until you answer." : " on this phone until sent. Keep this page open.")
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

// What is asked of an entry that waits is marked with its reference.
function show(answer, text, waits) {
  if (answer.redirected) { location.replace(answer.url); return; }
  const page = new DOMParser().parseFromString(text, "text/html");
  document.title = page.title;
  document.body.replaceWith(document.adoptNode(page.body));
  if (waits && !answer.ok) document.getElementById("main").dataset.waits = waits;
  scrollTo(0, 0);
  tell();
}

// Of a pedigree that is wider than the screen the middle is seen first: whom it was asked for.
function centre() {
  for (const one of document.querySelectorAll("figure.whole")) one.scrollLeft = (one.scrollWidth - one.clientWidth) / 2;
}

// Nobody is to lose what he is typing, or a question that is to be answered first.
function isBusy() {
  const typed = document.querySelectorAll("main input:not([type=hidden]):not([type=checkbox])");
  return [...typed].some(field => field.value !== field.defaultValue && !field.closest(".waits"));
}
function isAsked() { return document.querySelector("input[name=confirm], [data-waits]") !== null; }

let sending = false;
async function send() {
  if (sending || !(waiting().length || pictures) || isAsked()) return;
  sending = true;
  let last = null; // the answer to the newest that was sent, with its reference
  try {
    for (let list = waiting(); list.length; list = waiting()) {
      const [first] = list;
      const answer = await post(first.to, later(first)), ref = refOf(first.fields);
      if (stays(answer)) break;
      last = {answer, ref};
      if (!answer.ok) break; // a doubt or a refusal is answered before the next is sent
      keep(others(ref));
    }
    if (!waiting().length && pictures) last = await sendPictures() || last;
  } catch { /* still away */ } finally { sending = false; tell(); }
  if (last && !isBusy()) show(last.answer, await last.answer.text(), last.ref);
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
  const at = Date.now(), ref = refOf(fields), asked = document.querySelector("[data-waits]");
  post(to, fields).then(async answer => {
    if (answer.status === 503) throw new Error("busy"); // it waits, as if nobody were there
    if (asked && answer.ok) keep(others(ref));
    show(answer, await answer.text(), asked && ref);
  }).catch(() => {
    keep([...others(ref), {to, fields, at}]);
    (form.closest(".task") || form).classList.add("waits");
    if (to === "/record" && form.elements.ref) renew(form);
    tell();
  });
});

// "Back" beside what is asked or told of one that waited: it is given up.
document.addEventListener("click", event => {
  const back = event.target.closest("[data-waits] a");
  if (!back) return;
  event.preventDefault();
  forget(back.closest("[data-waits]").dataset.waits).finally(() => location.assign(back.href));
});

addEventListener("online", send);
addEventListener("pageshow", () => { centre(); tell(); send(); });
setInterval(send, AGAIN);
tell();
