// @ts-check
// Handles on the fittings in the drawing of the inside: they are dragged, or moved
// with the arrow keys.
import { make } from "./form.js";

/** @typedef {Record<string, any>} Plain */

export class Handles {
	/** @param {(fitting: number, x: number, y: number, done: boolean) => void} move x and y in mm, to the right and down
	 * @param {(fitting: number | undefined) => void} light
	 * @param {() => number} ruler the least step, in mm
	 * @param {(fitting: number) => void} enter goes to the fields of a fitting */
	constructor(move, light, ruler, enter) {
		this.enter = enter;
		this.move = move;
		this.light = light;
		this.ruler = ruler;
		/** @type {HTMLElement[]} */
		this.all = [];
		this.dragged = -1;
	}

	/** Puts a handle over each fitting of a drawing.
	 * @param {HTMLElement} view @param {Plain[]} fittings */
	place(view, fittings) {
		if (this.dragged >= 0) return;
		const svg = view.querySelector("svg");
		const here = fittings.filter((f) => !f.outside);
		while (this.all.length > here.length) this.all.pop()?.remove();
		here.forEach((f, i) => {
			const h = this.all[i] ?? this.handle();
			this.all[i] = h;
			h.dataset.fitting = String(f.index);
			const name = f.label + ", on the " + f.panel;
			if (h.getAttribute("aria-label") !== name) h.setAttribute("aria-label", name);
			if (h.parentNode !== view) view.append(h);
		});
		if (!svg) return;
		const box = svg.getBoundingClientRect();
		const outer = view.getBoundingClientRect();
		const where = here.map((f) => around(svg, f.index));
		here.forEach((_, i) => {
			const r = where[i];
			const h = this.all[i];
			h.hidden = !r || box.width === 0;
			if (!r) return;
			h.style.left = (r.left - outer.left) + "px";
			h.style.top = (r.top - outer.top) + "px";
			h.style.width = (r.right - r.left) + "px";
			h.style.height = (r.bottom - r.top) + "px";
			h.style.translate = "";
		});
	}

	handle() {
		const h = make("button", { type: "button", className: "handle" });
		h.setAttribute("aria-describedby", "handle-hint");
		const fitting = () => Number(h.dataset.fitting);
		h.addEventListener("focus", () => this.light(fitting()));
		h.addEventListener("blur", () => this.light(undefined));
		h.addEventListener("keydown", (e) => {
			const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
			if (!way || e.ctrlKey || e.metaKey || e.altKey) return;
			e.preventDefault();
			const step = this.ruler() * (e.shiftKey ? 8 : 1);
			this.move(fitting(), way[0] * step, way[1] * step, false);
		});
		// By keyboard it leads to the fields; a tap chooses what is dragged next.
		h.addEventListener("click", (e) => {
			if (e.detail === 0) this.enter(fitting());
			else h.focus();
		});
		h.addEventListener("pointerdown", (e) => {
			// A finger that comes to scroll the page moves nothing, nor does a second one.
			if (e.button !== 0 || !e.isPrimary || e.pointerType === "touch" && h !== document.activeElement) return;
			h.setPointerCapture(e.pointerId);
			const svg = h.parentElement?.querySelector("svg");
			const scale = svg ? svg.viewBox.baseVal.width / svg.getBoundingClientRect().width : 0;
			const [x, y] = [e.clientX, e.clientY];
			this.dragged = fitting();
			const drag = (/** @type {PointerEvent} */ m) => { h.style.translate = (m.clientX - x) + "px " + (m.clientY - y) + "px"; };
			const over = new AbortController();
			const { signal } = over;
			const end = (/** @type {number} */ dx, /** @type {number} */ dy) => {
				over.abort();
				this.dragged = -1;
				h.style.translate = "";
				if (Math.hypot(dx, dy) > 3) this.move(fitting(), dx * scale, dy * scale, true);
			};
			const stop = () => end(0, 0);
			h.addEventListener("pointermove", drag, { signal });
			h.addEventListener("pointerup", (m) => end(m.clientX - x, m.clientY - y), { signal });
			h.addEventListener("pointercancel", stop, { signal });
			// A second finger makes something else of it, Escape nothing.
			addEventListener("pointerdown", (m) => { if (m.pointerId !== e.pointerId) stop(); }, { capture: true, signal });
			addEventListener("keydown", (k) => { if (k.key === "Escape") stop(); }, { signal });
		});
		return h;
	}
}

/** Where what belongs to a fitting is drawn. @param {SVGSVGElement} svg @param {number} fitting */
function around(svg, fitting) {
	let all;
	for (const el of svg.querySelectorAll('[data-fitting="' + fitting + '"]')) {
		if (el.localName === "text") continue;
		const r = el.getBoundingClientRect();
		if (r.width === 0 && r.height === 0) continue;
		all = all
			? { left: Math.min(all.left, r.left), top: Math.min(all.top, r.top), right: Math.max(all.right, r.right), bottom: Math.max(all.bottom, r.bottom) }
			: { left: r.left, top: r.top, right: r.right, bottom: r.bottom };
	}
	return all;
}

/** A length as the library writes it, in mm; undefined where it is none.
 * @param {unknown} text */
export function millimetres(text) {
	if (text === undefined) return 0;
	const m = typeof text === "string" && /^(-)?(?:(\d+(?:\.\d+)?)(?!\/))?(?:\s*(\d+)\/(\d+))?\s*(in|mm)$/.exec(text.trim());
	if (!m) return undefined;
	const n = Number(m[2] ?? 0) + (m[4] ? Number(m[3]) / Number(m[4]) : 0);
	return (m[1] ? -1 : 1) * n * (m[5] === "in" ? 25.4 : 1);
}
