// @ts-check
// To begin with what must go in: folios are proposed, as pictures to pick from.
import { bare, crop, svgOf } from "./drawings.js";
import { make } from "./form.js";
import { titleOf } from "./sections.js";
import { atMost, isPlain } from "./state.js";

/** @typedef {Record<string, any>} Plain */

/** @param {string} text */
const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** A folio as a text, whatever it is called. @param {Plain} spec */
const written = ({ title, ...spec }) => (void title, JSON.stringify(spec));

/** What a folio holds things in, those that are alike counted. @param {Plain} spec */
function holders(spec) {
	/** @type {Map<string, number>} */
	const all = new Map();
	for (const f of spec.fittings ?? []) {
		const name = (f.name || titleOf(f, 0)).replace(/ \d+(?= for )/, "");
		all.set(name, (all.get(name) ?? 0) + 1);
	}
	return [...all].map(([name, n]) => (n === 1 ? name : name + ", " + n + " times")).join("; ");
}

export class Start {
	/** @param {HTMLElement} box
	 * @param {{ask: (contents: string, anyForm: boolean) => Promise<Plain>, stop: () => void, pick: (proposal: Plain) => void, listed: (v: Plain) => HTMLElement, say: (text: string) => void, keep: (what: "contents" | "anyForm", value: string | boolean) => void}} acts */
	constructor(box, acts) {
		this.acts = acts;
		this.input = /** @type {HTMLInputElement} */ (make("input", { type: "text", id: "contents", maxLength: 2000, spellcheck: false }));
		this.input.setAttribute("aria-describedby", "contents-hint contents-wrong");
		this.anyForm = /** @type {HTMLInputElement} */ (make("input", { type: "checkbox", id: "any-form" }));
		this.wrong = make("div", { className: "wrong", id: "contents-wrong" });
		this.hint = make("p", { className: "hint", id: "contents-hint" });
		this.button = make("button", { type: "submit", id: "propose" }, "Propose folios");
		this.list = make("ul", { className: "proposals", id: "proposals" });
		this.busy = false;
		/** The folios that are shown, and where it is said which was taken. @type {{is: string, taken: HTMLElement}[]} */
		this.cards = [];
		const form = make("form", { autocomplete: "off", noValidate: true },
			make("div", { className: "field" }, make("label", { htmlFor: "contents" }, "How many of what, with their sizes"), this.input, this.wrong),
			this.hint,
			make("div", { className: "field tick" }, this.anyForm, make("label", { htmlFor: "any-form" }, "or whichever row of boards does best")),
			this.button);
		form.addEventListener("submit", (e) => {
			e.preventDefault();
			if (this.busy) acts.stop();
			else this.propose();
		});
		this.input.addEventListener("change", () => acts.keep("contents", this.input.value));
		this.anyForm.addEventListener("change", () => acts.keep("anyForm", this.anyForm.checked));
		box.append(form, this.list);
	}

	/** Shows how contents are said, in the units of the page. @param {boolean} metric */
	example(metric) {
		const [photo, tag] = metric ? ["9 x 13 cm", "40 x 80 mm"] : ["4 x 6 in", "2 x 4 in"];
		const hint = "As in “2 photo " + photo + " in view, 12 tag " + tag + " together, 1 note”. The row of boards and the papers are those below.";
		this.input.placeholder = "2 photo " + photo + ", 1 ID-1 card";
		if (this.hint.textContent !== hint) this.hint.textContent = hint;
	}

	async propose() {
		this.busy = true;
		this.button.textContent = "Stop looking";
		this.list.setAttribute("aria-busy", "true");
		this.wrong.replaceChildren();
		this.input.removeAttribute("aria-invalid");
		this.acts.say("Looking for folios that hold it.");
		try {
			this.show(await this.acts.ask(this.input.value, this.anyForm.checked));
		} catch (why) {
			this.acts.say(why instanceof Error ? why.message : String(why));
		}
		this.busy = false;
		this.button.textContent = "Propose folios";
		this.list.removeAttribute("aria-busy");
	}

	/** @param {Plain} answer */
	show(answer) {
		if (answer.error) {
			const all = [...(answer.error.problems ?? []), ...(answer.error.faults ?? [])];
			// What is wrong with the folio below is no fault of what it holds, and has a field of its own.
			const below = all.filter((v) => !/^contents\b(?!\.case\b)/.test(v.path));
			if (below.length < all.length || all.length === 0) this.input.setAttribute("aria-invalid", "true");
			this.wrong.replaceChildren(...all.filter((v) => !below.includes(v)).map((v) => make("p", { className: "problem" }, v.got + "; want " + v.want)),
				...(below.length ? [make("ul", { className: "wrongs" }, ...below.map((v) => this.acts.listed({ ...v, path: v.path.replace(/^contents\.case\./, "") })))] : []));
			if (all.length === 0) this.wrong.replaceChildren(make("p", { className: "problem" }, answer.error.message));
			this.cards = [];
			this.list.replaceChildren(); // what is shown would be for something else
			this.acts.say("No folio could be looked for: see what must be changed.");
			return;
		}
		// One folio may be the best in several ways.
		/** @type {Map<string, Plain>} */
		const kinds = new Map();
		for (const p of answer.proposals?.proposals ?? []) {
			const key = JSON.stringify(p.spec);
			const same = kinds.get(key);
			if (same) same.aim += ", " + p.aim;
			else kinds.set(key, { ...p });
		}
		const proposals = [...kinds.values()];
		this.cards = [];
		this.list.replaceChildren(...proposals.map((p, i) => this.card(p, i)), ...(answer.proposals?.lacking ?? []).map((l) => make("li", {}, make("h3", {}, upper(l.aim)), make("p", {}, "There is none. " + (l.why ?? []).map((w) => w.text).join(" ")))));
		this.scale();
		this.acts.say(proposals.length === 0 ? "No folio holds it." : proposals.length + (proposals.length === 1 ? " folio is" : " folios are") + " proposed.");
	}

	/** @param {Plain} p @param {number} i */
	card(p, i) {
		const picture = make("div", { className: "view bare" });
		const svg = p.drawn && svgOf(p.drawn);
		if (svg) picture.append(bare(svg));
		const take = make("button", { type: "button", id: "take-" + i, "aria-label": "Take this one: " + p.aim }, "Take this one");
		take.addEventListener("click", () => this.acts.pick(p));
		const taken = make("p", { className: "hint", hidden: true }, "Taken: it is the folio below.");
		this.cards.push({ is: written(p.spec), taken });
		const ruler = p.spec.rulers?.main;
		const chosen = p.chosen?.[0]; // where there were several rows of boards
		const others = (chosen?.others ?? []).map((o) => make("li", {}, o.form + ": " + (o.why ?? []).map((w) => w.text).join(" ")));
		const why = make("details", {}, make("summary", {}, "why it is so", make("span", { className: "hidden" }, ": " + p.aim)), make("ul", {}, ...(p.held ?? []).flatMap((h) => h.why ?? []).map((w) => make("li", {}, w.text)), ...others));
		return make("li", {}, make("h3", {}, upper(p.aim)), picture, ...(chosen ? [make("p", {}, "Row of boards: " + chosen.form + ".")] : []), make("p", {}, "In it: " + holders(p.spec) + "."),
			make("p", {}, "Cover " + p.cover.w.text + " x " + p.cover.h.text + "; closed " + [p.closed.size.w, p.closed.size.h].map((l) => atMost(l, ruler)).join(" x ") + ", " + atMost(p.closed.thickness, ruler) + " thick" + (p.complete ? "." : "; there may be a better one.")), why, take, taken);
	}

	/** Draws all to one scale, so that what is smaller looks it. */
	scale() {
		const all = [...this.list.querySelectorAll("svg")].flatMap((svg) => (svg instanceof SVGSVGElement ? [{ svg, box: crop(svg) }] : []));
		const rem = Math.min(...all.map(({ box }) => Math.min(16 / box.width, 14 / box.height)));
		for (const { svg, box } of all) svg.style.width = (box.width * rem).toFixed(2) + "rem";
	}

	/** @param {unknown} contents @param {unknown} anyForm @param {unknown} spec */
	sync(contents, anyForm, spec) {
		const now = this.cards.length && isPlain(spec) ? written(spec) : "";
		for (const c of this.cards) c.taken.hidden = c.is !== now;
		this.anyForm.checked = anyForm === true;
		const text = typeof contents === "string" ? contents : "";
		if (this.input !== document.activeElement && this.input.value !== text) this.input.value = text;
	}
}
