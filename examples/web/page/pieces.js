// @ts-check
// The pieces to cut: a table, each with its working on hover, focus and tap.
import { make } from "./form.js";

/** @typedef {Record<string, any>} Plain */

export class Pieces {
	/** @param {HTMLElement} table @param {HTMLElement} working @param {(piece: number | undefined, fitting: number | undefined) => void} light
	 * @param {(piece: number, to: HTMLElement) => void} draw */
	constructor(table, working, light, draw) {
		this.draw = draw;
		this.told = "";
		this.quiet = false;
		this.drawing = /** @type {HTMLElement | undefined} */ (undefined);
		this.body = /** @type {HTMLTableSectionElement} */ (table.querySelector("tbody"));
		this.working = working;
		this.light = light;
		/** @type {Plain[]} */
		this.pieces = [];
		/** @type {(string | undefined)[][]} */
		this.was = [];
		/** The piece that stays lit, until another is picked. @type {number | undefined} */
		this.held = undefined;
		/** @type {number | undefined} */
		this.shown = undefined;
		const rowOf = (/** @type {Event} */ e) => {
			const row = e.target instanceof Element ? e.target.closest("tr") : null;
			return row ? Number(row.dataset.row) : undefined;
		};
		// What is shown stays until another piece is pointed at, or Escape; what came with
		// the focus goes with it, unless it was pressed, and covers nothing that comes next.
		addEventListener("keydown", (e) => { if (e.key === "Escape") this.close(); });
		this.body.addEventListener("pointerover", (e) => this.pick(rowOf(e), false));
		this.body.addEventListener("focusin", (e) => this.pick(rowOf(e), false));
		this.body.addEventListener("click", (e) => this.pick(rowOf(e), true));
		for (const part of [this.body, working]) {
			part.addEventListener("focusout", (e) => {
				const to = e.relatedTarget;
				if (this.held === undefined && to instanceof Node && !this.body.contains(to) && !working.contains(to)) this.pick(undefined, false);
			});
		}
	}

	/** @param {Plain} plan @param {Plain} [before] the plan before it was refitted */
	show(plan, before) {
		const fittings = new Map((plan.fittings ?? []).map((/** @type {Plain} */ f) => ["fittings[" + f.index + "]", f.index]));
		const labels = new Map((plan.fittings ?? []).map((/** @type {Plain} */ f) => ["fittings[" + f.index + "]", f.label]));
		this.pieces = (plan.pieces ?? []).map((/** @type {Plain} */ p) => ({ ...p, fitting: labels.get(p.fitting) ?? "", index: fittings.get(p.fitting) }));
		// What the size of each piece was, where a refit has changed it.
		this.was = this.pieces.map((p, i) => {
			const b = before?.pieces?.[i];
			return b && b.name === p.name ? ["width", "height"].map((side) => (b[side] === p[side] ? undefined : b[side])) : [];
		});
		while (this.body.rows.length > this.pieces.length) this.body.deleteRow(-1);
		this.pieces.forEach((p, i) => {
			let row = this.body.rows[i];
			if (!row) {
				row = this.body.insertRow();
				row.dataset.row = String(i);
				// Each is described by its own working from the start: what came with the
				// focus would be heard twice.
				const id = "working-" + i;
				const name = make("th", { scope: "row" }, make("button", { type: "button", className: "piece", "aria-describedby": id }), make("span", { className: "of", "aria-hidden": "true" }), make("span", { id, hidden: true }));
				row.append(name, make("td"), make("td", { className: "n" }), make("td"), make("td"));
			}
			const texts = [p.name, p.stock, String(p.quantity), p.width, p.height];
			texts.forEach((text, k) => {
				const was = k < 3 ? undefined : this.was[i][k - 3];
				const cell = k === 0 ? row.cells[0].firstElementChild : row.cells[k];
				const whole = was === undefined ? text : text + " (was " + was + ")";
				if (!cell || cell.textContent === whole) return;
				cell.textContent = text;
				if (was !== undefined) cell.append(make("span", { className: "was" }, " (was " + was + ")"));
			});
			const [, of, how] = row.cells[0].children;
			const working = p.working.join("; ");
			if (how && how.textContent !== working) how.textContent = working;
			if (of && of.textContent !== p.fitting) of.textContent = p.fitting;
			// Two frames are told apart by whose they are, also by those who hear one button after another.
			const button = row.cells[0].firstElementChild;
			if (p.fitting) button?.setAttribute("aria-label", p.name + ", " + p.fitting);
			else button?.removeAttribute("aria-label");
			row.classList.toggle("changed", this.was[i].some((w) => w !== undefined));
		});
		this.tell();
	}

	/** The pieces that a refit has changed. */
	changed() {
		return this.was.flatMap((w, i) => (w.some((one) => one !== undefined) ? [i] : []));
	}

	close() {
		this.held = undefined;
		this.pick(undefined, false);
	}

	/** Lights a piece. One that was pressed stays lit until it is pressed again.
	 * @param {number | undefined} piece @param {boolean} pressed @param {boolean} [quiet] without its working */
	pick(piece, pressed, quiet = false) {
		this.quiet = quiet;
		if (pressed) {
			this.held = this.held === piece ? undefined : piece;
			this.shown = this.held;
		} else if (this.held === undefined) this.shown = piece;
		this.tell();
		this.light(this.shown, this.shown === undefined ? undefined : this.pieces[this.shown]?.index);
	}

	tell() {
		const p = this.shown === undefined || this.quiet ? undefined : this.pieces[this.shown];
		[...this.body.rows].forEach((row, i) => {
			row.classList.toggle("lit", i === this.shown);
			row.cells[0].firstElementChild?.setAttribute("aria-pressed", String(i === this.held));
		});
		this.working.classList.toggle("empty", !p);
		if (!p && this.told !== "") {
			this.told = "";
			this.working.replaceChildren();
		}
		if (p) {
			const lines = p.working;
			const head = p.name + (p.fitting ? ", " + p.fitting : "");
			if (this.told !== head + lines.join()) {
				this.told = head + lines.join();
				this.drawing = make("div", { className: "view" });
				const close = make("button", { type: "button", id: "close-working" }, "Close");
				close.addEventListener("click", () => this.close());
				this.working.replaceChildren(make("div", {}, make("h3", {}, head), ...lines.map((t) => make("p", {}, t)), close), this.drawing);
				this.draw(/** @type {number} */ (this.shown), this.drawing);
			}
		}
	}
}
