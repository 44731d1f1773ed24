// The pages work without this file. It adds: news without reloading, keys, local times. It never moves the focus by
// itself and never replaces anything that is being used or was typed into.
"use strict";
const body = document.body;
const said = document.querySelector("[data-said]");

// Times: the server writes UTC; whoever reads wants the clock on the wall.
function localTimes(root) {
  for (const time of root.querySelectorAll("time[datetime]")) {
    const at = new Date(time.dateTime);
    if (!isNaN(at)) time.textContent = at.toLocaleString([], {day: "numeric", month: "short", hour: "2-digit", minute: "2-digit"});
  }
}
localTimes(document);

// News: a fragment with the parts that may have changed; 304 when nothing did.
let tag = "";
function exchange(fragment) {
  for (const fresh of fragment.querySelectorAll("[data-live]")) {
    for (const old of document.querySelectorAll(`[data-live="${CSS.escape(fresh.dataset.live)}"]`)) {
      localTimes(fresh);
      if (old.outerHTML === fresh.outerHTML || old.contains(document.activeElement)) continue;
      tell(old, fresh);
      old.replaceWith(fresh.cloneNode(true));
    }
  }
}
function tell(old, fresh) {  // only what is worth interrupting a listener for
  const more = name => Number(fresh.dataset[name] || 0) - Number(old.dataset[name] || 0);
  if (more("stop") > 0) said.textContent = "Someone new should stop and be seen: see the top of the page.";
  else if (more("waiting") > 0) said.textContent = `${more("waiting")} more waiting.`;
  else if (more("replies") > 0) said.textContent = "Your coach has answered.";
}
async function look() {
  if (document.hidden) return;
  try {
    const answer = await fetch(body.dataset.news, {headers: tag ? {"If-None-Match": tag} : {}, cache: "no-store"});
    if (answer.status !== 200) return;
    tag = answer.headers.get("ETag") || "";
    exchange(new DOMParser().parseFromString(await answer.text(), "text/html"));
  } catch { /* the network is away; the next look may find it */ }
}
if (body.dataset.news) setInterval(look, Number(body.dataset.poll) * 1000);

// The button says what it will do: approve as it stands, or send what was edited.
const reply = document.querySelector("textarea[data-draft]");
const label = document.querySelector("[data-label]");
const changed = document.querySelector("[data-when-edited]");
if (reply && label && changed) {
  const approve = label.textContent, draft = reply.defaultValue;
  const all = document.querySelector('button[value="approve-all"]');
  const show = () => {
    const edited = reply.value.trim() !== draft.trim();
    label.textContent = edited ? approve.replace("Approve and send", "Send edited") : approve;
    changed.hidden = !edited;
    if (all) all.hidden = edited;
  };
  reply.addEventListener("input", show);
  show();
}

// Another option picked but not used yet: the reply would still be for the one before.
const pick = document.querySelector("form.pick");
const pending = document.querySelector("[data-pending]");
if (pick && pending) pick.addEventListener("change", () => {
  pending.hidden = [...pick.querySelectorAll("input[type=radio]")].every(radio => radio.checked === radio.defaultChecked);
  for (const button of reply.form.querySelectorAll("button[name=do]")) button.disabled = !pending.hidden;
  pick.querySelector("[data-use]").classList.toggle("main", !pending.hidden);
});

// Keys: single letters, never while typing, and they can be switched off.
const keys = document.querySelector("[data-keys]");
const off = () => localStorage.getItem("keys") === "off";
if (keys) {
  const button = keys.querySelector("[data-keys-switch]");
  const show = () => { button.textContent = off() ? "Keys are off" : "Keys are on"; button.setAttribute("aria-pressed", String(!off())); };
  button.addEventListener("click", () => { localStorage.setItem("keys", off() ? "on" : "off"); show(); });
  keys.hidden = false;
  show();
  document.addEventListener("keydown", press);
}
function press(event) {
  if (off() || event.ctrlKey || event.metaKey || event.altKey || event.repeat || event.defaultPrevented) return;
  if (event.target.closest("input, textarea, select, [contenteditable]")) return;
  const key = event.key.toLowerCase();
  const here = /^[a-z]$/.test(key) && document.querySelector(`[data-key="${key}"]`);
  const first = key === "n" && !here && document.querySelector(".stop .button, .knot");
  const target = here || first;
  if (!target || target.hidden || target.disabled) return;
  event.preventDefault();
  if (target.tagName !== "SUMMARY") return target.click();
  target.parentElement.open = true;
  const field = target.parentElement.querySelector("textarea, select, input:not([type=hidden])");
  (field || target).focus();
}
document.querySelector(".days [aria-current]")?.scrollIntoView({block: "nearest", inline: "center"});
if (location.hash === "#open") document.getElementById("open")?.focus({preventScroll: true});
