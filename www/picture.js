// The picture: owns the canvas, its size, its gestures and its time. What is drawn is the core's.
import { listen } from "./gestures.js";
import { h } from "./dom.js";
import { placeLabels } from "./labels.js";
import { CORE } from "./words.js";

/** How long a part travels; the easing is inside the view. */
const MOTION_MS = 600;
/** How long the eye takes to another place, before the part travels. */
const GLIDE_MS = 300;

/**
 * What the picture shows of a plan, as JSON. Half of a plan is words and reasons, and how parts are worked.
 * @param {import("./types").Plan} plan
 */
function drawnOf({ unit, workshop, bodies, parts, joints, steps }) {
  const drawn = {
    unit,
    workshop,
    bodies,
    parts: parts.map(({ id, name, material, material_name, kind, boxes }) => ({ id, name, material, material_name, kind, boxes })),
    joints,
    steps: steps.map((step) => ({ ...step, text: undefined, why: undefined, instead: undefined, lines: undefined, drivers: undefined })),
  };
  return JSON.stringify(drawn);
}

/**
 * @typedef {object} Source
 * @property {() => Promise<void>} ready settled once a view can be made, or never will
 * @property {(gl: WebGL2RenderingContext, planJson: string) => import("./types").View | null} createView
 * @property {(n: number) => Promise<string | undefined>} stepSvg the same step as a drawing
 * @property {(motion: "running" | "rest") => void} onMotion
 */

export class Picture {
  /** @param {Source} source */
  constructor(source) {
    this.source = source;
    this.canvas = h("canvas", { role: "img" });
    // They are the core's words.
    this.labels = h("div", { class: "labels", lang: CORE, "aria-hidden": "true" });
    this.still = h("img", { class: "still", role: "img", alt: "", hidden: true });
    this.named = h("figcaption", { class: "named", "aria-live": "off" });
    this.figure = h("figure", { class: "picture" }, this.canvas, this.labels, this.still, this.named);
    /** @type {import("./types").View | null} */
    this.view = null;
    /** @type {import("./types").Plan | null} */
    this.plan = null;
    this.json = "";
    /** Whether the view has the plan. */
    this.read = false;
    /** Whether a view can be made, or never will. */
    this.ready = false;
    this.n = 1;
    /** Whether the whole piece is shown rather than a step. */
    this.whole = false;
    this.dark = false;
    this.reduced = false;
    /** Time of the first frame of a motion; negative before it. */
    this.started = -1;
    /** How long the eye travels in the motion that runs. */
    this.glide = 0;
    this.frame = 0;
    this.moving = false;
    this.size = [0, 0];
    this.stillUrl = "";
    /** Step and plan of the still drawing.
     * @type {[number, unknown]} */
    this.drawn = [0, null];
    /** Other ways to look than the step's own. */
    this.manner = { through: false, next: false, apart: false };
    /** Across which axis it is cut open, none below 0, and at what share of that size. */
    this.cut = { axis: -1, share: 0.5 };
    /** Told which face was tapped; without it the part is named.
     * @type {((face: import("./types").Face | null) => void) | null} */
    this.tapped = null;
    this.gl = this.canvas.getContext("webgl2", { antialias: true, alpha: false });
    this.swap();
    source.ready().then(() => {
      this.ready = true;
      this.refresh();
    });

    this.canvas.addEventListener("webglcontextlost", (event) => {
      // Without this the browser never gives the context back.
      event.preventDefault();
      this.dropView();
      this.refresh();
    });
    this.canvas.addEventListener("webglcontextrestored", () => {
      this.size = [0, 0];
      this.makeView();
      this.refresh();
    });
    listen(
      this.canvas,
      {
        orbit: (dx, dy) => this.turn((view) => view.orbit(dx, dy)),
        pan: (dx, dy) => this.turn((view) => view.pan(dx, dy)),
        zoom: (factor) => this.turn((view) => view.zoom(factor)),
        tap: (x, y) => this.tap(x, y),
      },
      () => this.figure.closest("[data-scrolls]") !== null,
    );
    new ResizeObserver(() => this.refresh()).observe(this.figure);
  }

  /**
   * Takes a plan to show; it is read when the picture is next drawn, so never on a stage without one.
   * @param {import("./types").Plan} plan
   * @param {boolean} dark
   * @param {boolean} reduced
   */
  load(plan, dark, reduced) {
    this.read = this.read && plan === this.plan;
    this.plan = plan;
    this.theme(dark, reduced);
  }

  /**
   * Hands the plan to the view.
   * @returns {boolean} whether another plan stood in the view before
   */
  readPlan() {
    if (this.read || this.plan === null) return false;
    this.read = true;
    this.json = drawnOf(this.plan);
    const anew = this.view !== null;
    if (anew) this.guard(() => this.view?.load(this.json));
    else this.makeView();
    return anew;
  }

  /**
   * @param {boolean} dark
   * @param {boolean} reduced
   */
  theme(dark, reduced) {
    this.dark = dark;
    this.reduced = reduced;
    this.guard(() => this.view?.theme(dark, reduced));
    this.refresh();
  }

  /**
   * Shows a step, travelling or at rest.
   * @param {number} n from 1
   * @param {string} label what the picture shows, in words
   * @param {boolean} move
   */
  show(n, label, move) {
    this.whole = false;
    this.turnTo(n, label, move);
  }

  /**
   * Shows the finished piece, standing.
   * @param {string} label what the picture shows, in words
   */
  finished(label) {
    this.whole = true;
    this.turnTo(this.plan?.steps.at(-1)?.n ?? 1, label, false);
  }

  /**
   * @param {number} n
   * @param {string} label
   * @param {boolean} move
   */
  turnTo(n, label, move) {
    this.n = n;
    this.canvas.setAttribute("aria-label", label);
    this.still.alt = label;
    this.still.setAttribute("aria-label", label);
    this.name(undefined);
    this.started = -1;
    this.setMoving(move && !this.reduced && this.view !== null);
    this.refresh();
  }

  /** @returns {boolean} whether the view is the step's own */
  isHome() {
    return this.view ? this.view.is_home() : true;
  }

  home() {
    this.turn((view) => view.home());
  }

  /** @param {(view: import("./types").View) => void} change */
  turn(change) {
    this.guard(() => {
      if (this.view) change(this.view);
    });
    this.figure.toggleAttribute("data-turned", !this.isHome());
    this.refresh();
  }

  /** @param {{ through: boolean, next: boolean, apart: boolean }} manner */
  look(manner) {
    this.manner = manner;
    this.guard(() => this.view?.look(manner.through, manner.next, manner.apart));
    this.refresh();
  }

  /** @param {{ axis: number, share: number }} cut */
  section(cut) {
    this.cut = cut;
    this.guard(() => this.view?.section(cut.axis, cut.share));
    this.refresh();
  }

  /**
   * @param {number} x CSS pixels from the upper left corner
   * @param {number} y
   */
  tap(x, y) {
    this.guard(() => {
      if (!this.tapped) return this.name(this.view?.pick(x, y));
      const face = this.view?.touch(x, y);
      this.tapped(face ? JSON.parse(face) : null);
    });
  }

  /** @param {string | undefined} id of the part under the finger */
  name(id) {
    this.named.textContent = this.plan?.parts.find((part) => part.id === id)?.name ?? "";
  }

  /** Draws once in the next frame; the loop runs on only during motion. */
  refresh() {
    if (!this.ready) return;
    if (this.frame === 0) this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  /** @param {number} now */
  tick(now) {
    this.frame = 0;
    if (!this.figure.isConnected) {
      this.setMoving(false);
      return;
    }
    // Read in one frame and drawn in the next: a key that comes in between need not wait for both.
    if (this.readPlan()) return this.refresh();
    const view = this.view;
    this.swap();
    if (!view) {
      this.setMoving(false);
      this.drawStill();
      return;
    }
    let t = 1;
    this.guard(() => {
      this.fit(view);
      t = this.pose(view, now);
      view.draw();
      placeLabels(this.labels, JSON.parse(view.labels()));
    });
    this.figure.toggleAttribute("data-turned", !this.isHome());
    if (this.moving && t < 1) this.refresh();
    else this.setMoving(false);
  }

  /**
   * Brings eye and parts to where they are now.
   * @param {import("./types").View} view
   * @param {number} now
   * @returns {number} how far the motion is, from 0 to 1
   */
  pose(view, now) {
    if (this.whole) {
      view.finished();
      return 1;
    }
    if (!this.moving) {
      view.show(this.n, 1);
      view.arrive(1);
      return 1;
    }
    if (this.started < 0) {
      this.started = now;
      view.show(this.n, 0);
      this.glide = view.arrive(0) ? GLIDE_MS : 0;
    }
    const past = now - this.started;
    view.arrive(this.glide === 0 ? 1 : Math.min(1, past / this.glide));
    const t = Math.min(1, Math.max(0, (past - this.glide) / MOTION_MS));
    view.show(this.n, t);
    return t;
  }

  /** Either the canvas or the still drawing stands in the figure, never both. */
  swap() {
    const drawn = this.view !== null || (this.gl !== null && !this.gl.isContextLost() && this.json === "");
    this.canvas.hidden = !drawn;
    this.labels.hidden = !drawn;
    this.still.hidden = drawn;
  }

  /** @param {import("./types").View} view */
  fit(view) {
    const { width, height } = this.figure.getBoundingClientRect();
    const ratio = Math.min(window.devicePixelRatio || 1, 2);
    const w = Math.max(1, Math.round(width * ratio));
    const high = Math.max(1, Math.round(height * ratio));
    if (this.size[0] === w && this.size[1] === high) return;
    this.size = [w, high];
    this.canvas.width = w;
    this.canvas.height = high;
    view.resize(w, high, ratio);
  }

  /** When nothing is left to draw, or there is no picture on the page. */
  async quiet() {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    await this.source.ready();
    // It is drawn in the frame after its size is known, which is the frame after it came onto the page.
    for (let n = 0; n < 3 || this.frame !== 0; n += 1) await frame();
  }

  async drawStill() {
    if (this.drawn[0] === this.n && this.drawn[1] === this.plan) return;
    const mine = (this.drawn = [this.n, this.plan]);
    // Until then what hangs there is of another step, and looks so.
    delete this.still.dataset.step;
    const svg = await this.source.stepSvg(this.n);
    // A quicker finger may have asked for another step meanwhile.
    if (mine !== this.drawn) return;
    this.still.dataset.step = String(mine[0]);
    if (this.stillUrl) URL.revokeObjectURL(this.stillUrl);
    this.stillUrl = svg ? URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" })) : "";
    if (this.stillUrl) this.still.src = this.stillUrl;
    else this.still.removeAttribute("src");
  }

  makeView() {
    if (!this.gl || this.gl.isContextLost() || this.json === "") return;
    this.view = this.source.createView(this.gl, this.json);
    this.size = [0, 0];
    this.guard(() => {
      this.view?.theme(this.dark, this.reduced);
      this.view?.look(this.manner.through, this.manner.next, this.manner.apart);
      this.view?.section(this.cut.axis, this.cut.share);
    });
  }

  dropView() {
    const view = this.view;
    this.view = null;
    try {
      view?.free();
    } catch (error) {
      console.error(error);
    }
  }

  /**
   * A fault in drawing must not take the words with it: the still drawing takes over.
   * @param {() => void} work
   */
  guard(work) {
    try {
      work();
    } catch (error) {
      console.error(error);
      this.dropView();
      this.refresh();
    }
  }

  /** @param {boolean} moving */
  setMoving(moving) {
    this.moving = moving;
    this.source.onMotion(moving ? "running" : "rest");
  }
}
