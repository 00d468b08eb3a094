// @ts-check
// The drawings: each is put in place of the last one only when it has changed. Those
// that are seen are drawn at once; the others once typing pauses, for whoever prints the
// page, searches it or has it read aloud.
import { make } from "./form.js";

/** @typedef {Record<string, any>} Plain */

/** The room that drawings are made for: how wide they may be, in CSS pixels, and how much
 * larger than usual text is wanted: that of drawings is, too. There is another one
 * whenever that changes.
 * @typedef {{width: number, larger: number}} Room */

/** What a drawing was made of: a folio, as a document, and a room.
 * @typedef {{of: string, room: Room}} Made */

const parser = new DOMParser();

/** An element from the text of an SVG; scripts are not run and never in it.
 * @param {string} text */
export function svgOf(text) {
	const root = parser.parseFromString(text, "image/svg+xml").documentElement;
	if (root.localName !== "svg") return undefined;
	// Its title stands beside it in any case; what it is called is what it shows, and that
	// is not heard once more as a description.
	const shows = root.querySelector(":scope > desc");
	if (shows) {
		root.setAttribute("aria-label", shows.textContent ?? "");
		for (const by of ["aria-labelledby", "aria-describedby"]) root.removeAttribute(by);
		for (const told of root.querySelectorAll(":scope > title, :scope > desc")) told.remove();
	}
	return document.adoptNode(root);
}

/** Makes a drawing larger, and its words with it. @param {Element} svg @param {number} larger */
export function grow(svg, larger) {
	for (const side of larger === 1 ? [] : ["width", "height"]) {
		const [, n, unit] = /^([\d.]+)(.*)$/.exec(svg.getAttribute(side) ?? "") ?? [];
		if (n) svg.setAttribute(side, Number(n) * larger + unit);
	}
}

/** Leaves of a drawing what is drawn of the thing itself: no lengths and no words.
 * @param {Element} svg */
export function bare(svg) {
	for (const el of svg.querySelectorAll('[data-legend], [data-line="thin"], [data-line="mark"], text')) el.remove();
	return svg;
}

/** Cuts a drawing that is part of the page to what there is to see, and says how large
 * that is. @param {SVGSVGElement} svg */
export function crop(svg) {
	const { x, y, width, height } = svg.getBBox();
	const edge = width / 100;
	svg.setAttribute("viewBox", [x - edge, y - edge, width + 2 * edge, height + 2 * edge].join(" "));
	svg.removeAttribute("width");
	svg.removeAttribute("height");
	return { width, height };
}

export class Drawings {
	/** @param {HTMLElement} box @param {() => void} ask @param {(piece: number | undefined, held: boolean) => void} pick */
	constructor(box, ask, pick) {
		this.box = box;
		/** @type {Map<string, {figure: HTMLElement, view: HTMLElement, caption: HTMLElement, text: string, made?: Made, seen: boolean}>} */
		this.all = new Map();
		this.piece = /** @type {number | undefined} */ (undefined);
		/** The fitting that the lit piece belongs to. */
		this.fitting = /** @type {number | undefined} */ (undefined);
		/** Other places with drawings in them. @type {HTMLElement[]} */
		this.others = [];
		this.pick = pick;
		/** @type {number[]} */
		this.changed = [];
		this.watch = new IntersectionObserver((entries) => {
			let more = false;
			for (const e of entries) {
				const d = this.all.get(/** @type {HTMLElement} */ (e.target).dataset.name ?? "");
				if (!d) continue;
				if (e.isIntersecting && !d.seen) more = true;
				d.seen = e.isIntersecting;
			}
			if (more) ask();
		}, { rootMargin: "0px" });
		this.listen(box);
	}

	/** A place with drawings of its own, in which pieces are lit and picked too.
	 * @param {HTMLElement} box */
	also(box) {
		this.others.push(box);
		this.listen(box);
	}

	/** @param {HTMLElement} box */
	listen(box) {
		const { pick } = this;
		const pieceAt = (/** @type {Event} */ e) => {
			const el = e.target instanceof Element ? e.target.closest("[data-piece]:not([data-legend] *)") : null;
			return el ? Number(el.getAttribute("data-piece")) : undefined;
		};
		box.addEventListener("pointerover", (e) => { const p = pieceAt(e); if (p !== undefined) pick(p, false); });
		box.addEventListener("click", (e) => { const p = pieceAt(e); if (p !== undefined) pick(p, true); });
	}

	/** Which drawings there are. @param {string[]} names */
	list(names) {
		for (const [name, d] of this.all) {
			if (names.includes(name)) continue;
			this.watch.unobserve(d.figure);
			d.figure.remove();
			this.all.delete(name);
		}
		let before = /** @type {HTMLElement | null} */ (null);
		for (const name of names.toReversed()) {
			let d = this.all.get(name);
			if (!d) {
				const view = make("div", { className: "view" });
				const caption = make("figcaption", {}, " ");
				const figure = make("figure", {}, view, caption);
				figure.dataset.name = name;
				d = { figure, view, caption, text: "", seen: this.all.size < 3 };
				this.all.set(name, d);
				this.watch.observe(figure);
			}
			if (d.figure.nextSibling !== before || d.figure.parentNode !== this.box) this.box.insertBefore(d.figure, before);
			before = d.figure;
		}
	}

	/** The names of those that are seen. */
	seen() {
		return [...this.all].filter(([, d]) => d.seen).map(([name]) => name);
	}

	/** The names of those that are of another folio or for another room.
	 * @param {string} of @param {Room} room */
	late(of, room) {
		return [...this.all].filter(([, d]) => d.made?.of !== of || d.made.room !== room).map(([name]) => name);
	}

	/** Shows pictures, and that those of other folios are not what they should be.
	 * @param {Plain[]} pictures @param {Made} made what they were made of */
	show(pictures, made) {
		const { larger } = made.room;
		for (const d of this.all.values()) if (d.made?.of !== made.of) d.figure.setAttribute("aria-busy", "true");
		for (const p of pictures) {
			const d = this.all.get(p.name);
			if (d) {
				d.made = made;
				d.figure.removeAttribute("aria-busy");
			}
			const text = larger + " " + p.svg;
			if (!d || d.text === text) continue;
			const svg = svgOf(p.svg);
			if (!svg) continue;
			d.text = text;
			grow(svg, larger);
			const old = d.view.querySelector(":scope > svg"); // handles beside it stay, and keep the focus
			if (old) old.replaceWith(svg);
			else d.view.prepend(svg);
			if (d.caption.textContent !== p.title) d.caption.textContent = p.title;
			d.figure.classList.remove("old");
			if (this.piece !== undefined) this.lightIn(svg);
			if (this.changed.length) this.markIn(svg);
		}
	}

	/** Lights a piece in every drawing; where it is not drawn itself, what it is part of.
	 * @param {number | undefined} piece @param {number | undefined} fitting */
	light(piece, fitting) {
		if (piece === this.piece && fitting === this.fitting) return;
		[this.piece, this.fitting] = [piece, fitting];
		for (const d of this.all.values()) this.lightIn(d.view);
		for (const box of this.others) for (const svg of box.querySelectorAll("svg")) this.lightIn(svg);
	}

	/** @param {Element} root */
	lightIn(root) {
		for (const el of root.querySelectorAll(".lit")) el.classList.remove("lit");
		if (this.piece === undefined) return;
		const none = ":not([data-legend] *)";
		let all = root.querySelectorAll('[data-piece="' + this.piece + '"]' + none);
		if (all.length === 0 && this.fitting !== undefined) all = root.querySelectorAll('[data-fitting="' + this.fitting + '"]' + none);
		for (const el of all) el.classList.add("lit");
	}

	/** Marks what a refit has changed. @param {number[]} changed */
	mark(changed) {
		this.changed = changed;
		for (const d of this.all.values()) this.markIn(d.view);
	}

	/** @param {Element} root */
	markIn(root) {
		for (const el of root.querySelectorAll(".changed")) el.classList.remove("changed");
		for (const i of this.changed) for (const el of root.querySelectorAll('[data-piece="' + i + '"]')) el.classList.add("changed");
	}

	/** Marks that the drawings are of the folio before. @param {boolean} old */
	old(old) {
		this.box.classList.toggle("old", old);
	}
}
