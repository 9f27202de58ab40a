// Clocks for glue. They run by the device's time and are kept, so that neither a reload nor an
// empty battery stops them, and they say when they are late. When the device's time jumps they say so, and
// never give the glue more time than it has.
import { h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { read, whenElsewhere, write } from "../stored.js";
import { w } from "../words.js";

/**
 * What a clock counts: the glue waits open for the other face, the faces wait closed for the
 * pressure (the two assembly times of ASTM D907), or the pressure stays on.
 * @typedef {"open" | "closed" | "clamp"} Phase
 * @typedef {{ id: string, phase: Phase, since: number, minutes: { open: number, closed: number, clamp: number }, what: string }} Clock
 */

const KEY = "clocks";
/** @type {Phase[]} */
const PHASES = ["open", "closed", "clamp"];
/** A clock that nobody stopped is forgotten after this long. */
const LONGEST_MS = 48 * 60 * 60 * 1000;
/** A device's time moves by itself by less than this when it is put right over the network. */
const JUMP_MS = 10_000;

/** @returns {Clock[]} */
function kept() {
  try {
    const all = JSON.parse(read(KEY) ?? "[]");
    if (!Array.isArray(all)) return [];
    return all.filter(
      (one) => PHASES.includes(one?.phase) && Number.isFinite(one.since) && Date.now() - one.since < LONGEST_MS && Number.isFinite(one.minutes?.[one.phase]),
    );
  } catch {
    return [];
  }
}

/** @param {number} ms @returns {string} `4:05`, or with hours `1:04:05` */
function minutesAndSeconds(ms) {
  const all = Math.floor(ms / 1000);
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  const hours = Math.floor(all / 3600);
  const rest = `${hours > 0 ? two(Math.floor(all / 60) % 60) : Math.floor(all / 60)}:${two(all % 60)}`;
  return hours > 0 ? `${hours}:${rest}` : rest;
}

/** @param {Clock} clock @returns {number} milliseconds left; negative when it is late */
const left = (clock) => Math.min(0, clock.since - Date.now()) + clock.minutes[clock.phase] * 60_000;

/** Begun later than now: the time was set back while nobody looked, and how long it has run is not known.
 * @param {Clock} clock */
const isLost = (clock) => clock.since > Date.now() + JUMP_MS;

/**
 * The row of running clocks.
 * @param {(text: string) => void} say told once when one runs out
 */
export function clocks(say) {
  let all = kept();
  const element = h("ul", { class: "clocks", "aria-label": w.clocks.title });
  /** Which have been told of, in this phase.
   * @type {Set<string>} */
  const told = new Set();
  let ticking = 0;
  let made = "";
  /** The device's time and one that nobody can set, at the last look. */
  let looked = { time: Date.now(), steady: performance.now() };
  /** What is to be said of a jump, while a clock runs that it concerns. */
  let jumped = "";

  function save() {
    write(KEY, all.length > 0 ? JSON.stringify(all) : null);
    render();
  }

  /** By how much the device's time has jumped since the last look, in milliseconds. */
  function look() {
    const before = looked;
    looked = { time: Date.now(), steady: performance.now() };
    return looked.time - before.time - (looked.steady - before.steady);
  }

  /** Set back, clocks are set back with it. Set on, it may as well have slept: the time is taken as gone. */
  function followTime() {
    const by = look();
    if (all.length === 0) jumped = "";
    if (all.length === 0 || Math.abs(by) < JUMP_MS) return;
    if (by < 0) {
      const now = kept();
      const mine = JSON.stringify(now) === JSON.stringify(all);
      // Another tab may have done it already.
      all = mine ? all.map((one) => ({ ...one, since: one.since + by })) : now;
      if (mine) write(KEY, JSON.stringify(all));
    }
    jumped = by < 0 ? w.clocks.setBack : w.clocks.setOn(minutesAndSeconds(by));
    say(jumped);
  }

  /** @param {Clock} clock */
  function row(clock) {
    const next = PHASES[PHASES.indexOf(clock.phase) + 1];
    const stop = w.clocks.stop(clock.what);
    return h(
      "li",
      { "data-id": clock.id, "data-phase": clock.phase },
      glyph("clock"),
      h("span", { class: "what" }, h("span", { class: "phase" }, w.clocks.phases[clock.phase]), h("span", { class: "quiet" }, clock.what)),
      h("strong", { class: "time", role: "timer" }),
      h("button", { type: "button", onclick: () => change(clock.id, next ?? null) }, next ? w.clocks.on[next] : w.clocks.done),
      next ? h("button", { type: "button", class: "stop", "aria-label": stop, title: stop, onclick: () => change(clock.id, null) }, glyph("close")) : null,
    );
  }

  /**
   * @param {string} id
   * @param {Phase | null} phase nothing ends it
   */
  function change(id, phase) {
    all = phase === null ? all.filter((one) => one.id !== id) : all.map((one) => (one.id === id ? { ...one, phase, since: Date.now() } : one));
    save();
  }

  /** @param {Clock} clock */
  function show(clock) {
    const item = [...element.children].find((one) => one instanceof HTMLElement && one.dataset.id === clock.id);
    if (!item) return;
    const ms = left(clock);
    const lost = isLost(clock);
    const over = ms < 0 || lost;
    // Glue that has been pressed long enough is ready, not late.
    const ready = over && !lost && clock.phase === "clamp";
    item.toggleAttribute("data-late", over && !ready);
    item.toggleAttribute("data-ready", ready);
    const text = lost ? w.clocks.lost : ready ? w.clocks.ready : over ? w.clocks.late(minutesAndSeconds(-ms)) : minutesAndSeconds(ms);
    const time = item.querySelector(".time");
    if (time && time.textContent !== text) time.textContent = text;
    const name = `${clock.id} ${clock.phase} ${clock.since}`;
    if (!over || told.has(name)) return;
    told.add(name);
    say(lost ? w.clocks.lostSaid(clock.what) : ready ? w.clocks.readySaid(clock.what) : w.clocks.lateSaid(w.clocks.phases[clock.phase], clock.what));
    navigator.vibrate?.([200, 100, 200]);
  }

  function render() {
    followTime();
    const key = JSON.stringify([all, jumped]);
    if (key !== made) {
      made = key;
      element.replaceChildren(...all.map(row), ...(jumped === "" ? [] : [h("li", { class: "jumped" }, glyph("caution"), h("span", { class: "what" }, jumped))]));
    }
    element.hidden = all.length === 0;
    all.forEach(show);
    clearTimeout(ticking);
    // Only while something runs and is seen; on the second.
    if (all.length > 0 && element.isConnected) ticking = window.setTimeout(render, 1010 - (Date.now() % 1000));
  }

  const unheard = whenElsewhere((key) => {
    if (key !== KEY) return;
    all = kept();
    // The other tab has followed a jump before it wrote.
    look();
    render();
  });

  return {
    element,
    render,
    /**
     * @param {Phase} phase
     * @param {Clock["minutes"]} minutes
     * @param {string} what is glued
     */
    begin(phase, minutes, what) {
      all = [...all, { id: `${Date.now()}-${all.length}`, phase, since: Date.now(), minutes, what }];
      save();
    },
    /** @returns {string} how long the one that cures longest still takes; empty when none does */
    curing() {
      const longest = Math.max(0, ...all.filter((one) => one.phase === "clamp").map(left));
      return longest > 0 ? minutesAndSeconds(longest) : "";
    },
    end() {
      clearTimeout(ticking);
      unheard();
    },
  };
}
