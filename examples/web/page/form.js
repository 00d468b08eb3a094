// @ts-check
// The form: made from the schema of the Spec, so that whatever the library takes
// can be said here.
import { at, isPlain } from "./state.js";
import { label, one, order, plainly, which, withUnit, words } from "./words.js";

/** @typedef {Record<string, any>} Plain */
/** @typedef {(path: string, value: any, done: boolean) => void} Edit */

/** @param {string} tag @param {Plain} [has] @param {...(Node|string)} inside */
export function make(tag, has = {}, ...inside) {
	const e = document.createElement(tag);
	for (const [k, v] of Object.entries(has)) {
		if (k in e && k !== "list" && k !== "form") /** @type {any} */ (e)[k] = v;
		else e.setAttribute(k, String(v));
	}
	e.append(...inside);
	return e;
}

/** Shows other parts in a box: what was open in it stays so, and what has the focus keeps it.
 * @param {HTMLElement} box @param {Node[]} parts */
export function replaceIn(box, parts) {
	const stops = () => /** @type {HTMLElement[]} */ ([...box.querySelectorAll("a, button, input, select, summary, [tabindex]")]);
	const at = stops().findIndex((e) => e === document.activeElement);
	const opened = new Set([...box.querySelectorAll("details[open]")].map((d) => d.id));
	box.replaceChildren(...parts);
	for (const d of box.querySelectorAll("details")) if (opened.has(d.id)) d.open = true;
	if (at >= 0) stops()[at]?.focus({ preventScroll: true });
}

/** Whether an element is there for what is in it. @param {Element} e */
const holds = (e) => /^(SECTION|FIELDSET|DETAILS)$/.test(e.tagName) || e.matches(".kind, .row");

/** @param {string} path */
export const idOf = (path) => "f-" + path.replace(/[^A-Za-z0-9]+/g, "-");

export class Form {
	/** @param {HTMLElement} form @param {Plain} schema @param {Edit} edit */
	constructor(form, schema, edit) {
		this.form = form;
		this.defs = schema.$defs;
		this.edit = edit;
		/** @type {Map<string, HTMLInputElement | HTMLSelectElement>} */
		this.fields = new Map();
		/** @type {Map<string, HTMLElement>} */
		this.places = new Map();
		/** @type {Map<string, HTMLElement>} */
		this.sections = new Map();
		this.shape = /** @type {string | undefined} */ (undefined);
		/** The defaults as they were last known. @type {Plain | undefined} */
		this.hinted = undefined;
		/** What the fields show: what is there still as it was is not gone through at every
		 * keystroke. @type {Plain | undefined} */
		this.filled = undefined;
		/** The fields of each part of the state. @type {Map<string, string[]>} */
		this.parts = new Map();
		/** The field that is typed in, and so shows what is typed. */
		this.typing = "";
		/** The roles that the fittings are offered, and the fittings. */
		this.offered = { roles: "", fittings: /** @type {unknown} */ (undefined) };
		/** Fields and places where something is wrong. @type {Set<HTMLElement>} */
		this.marked = new Set();
		this.state = /** @type {Plain} */ ({});
		this.written = new XMLSerializer();
		/** How each part was made. @type {WeakMap<Element, string>} */
		this.made = new WeakMap();
		this.unit = "in";
		this.describing = 0;
		form.addEventListener("input", (e) => this.typed(e, false));
		form.addEventListener("change", (e) => this.typed(e, true));
		form.addEventListener("submit", (e) => e.preventDefault());
	}

	/** @param {Plain} schema @returns {Plain} */
	resolve(schema) {
		return schema.$ref ? this.defs[schema.$ref.replace("#/$defs/", "")] : schema;
	}

	/** @param {Event} e @param {boolean} done */
	typed(e, done) {
		const el = /** @type {HTMLInputElement} */ (e.target);
		const path = el.dataset.path;
		if (!path) return;
		const kind = el.dataset.kind;
		/** @type {any} */
		let value;
		if (kind === "boolean") value = el.checked ? true : undefined;
		else {
			const text = el.value.trim();
			if (text === "") value = undefined;
			else if (kind === "integer") value = /^-?\d{1,9}$/.test(text) ? Number(text) : text;
			else if (kind === "length") value = withUnit(text, this.unit);
			else value = el.value;
		}
		this.edit(path, value, done || kind === "boolean" || el.tagName === "SELECT");
	}

	/** The sections, from the state. What is there already stays: the focus is not lost with
	 * it, and a list that comes anew is read out, as if somebody had gone there. Says whether
	 * there is anything that was not there. @param {Plain} state @param {(form: Form, state: Plain) => HTMLElement[]} sections */
	show(state, sections) {
		const shape = shapeOf(state);
		const anew = shape !== this.shape;
		this.state = state;
		if (anew) {
			this.shape = shape;
			// Where the focus is, and in what: some of it may be gone afterwards.
			const within = [];
			for (let e = this.form.contains(document.activeElement) ? document.activeElement : null; e && e !== this.form; e = e.parentElement) if (e.id) within.push(e.id);
			const opened = [...this.form.querySelectorAll("details[open]")].map((d) => d.id);
			this.fields.clear();
			this.places.clear();
			const parts = sections(this, state);
			for (const p of parts) this.remember(p);
			this.fill(state, true);
			if (this.hinted) this.hint(this.hinted);
			this.renew(this.form, [...this.form.querySelectorAll(":scope > section:not(#problems)")], parts);
			const living = (/** @type {Element} */ e) => /** @type {any} */ (e.isConnected ? e : document.getElementById(e.id));
			for (const [path, el] of this.fields) this.fields.set(path, living(el));
			for (const [path, el] of this.places) this.places.set(path, living(el));
			this.parts.clear();
			for (const path of this.fields.keys()) {
				const part = partOf(path);
				const paths = this.parts.get(part);
				if (paths) paths.push(path);
				else this.parts.set(part, [path]);
			}
			this.filled = undefined;
			this.offered.roles = "";
			for (const id of opened) document.getElementById(id)?.setAttribute("open", "");
			const back = within.map((id) => document.getElementById(id)).find((e) => e !== null);
			if (back && back !== document.activeElement) {
				if (back.tabIndex < 0) back.tabIndex = -1;
				back.focus();
			}
		}
		this.fill(state, false);
		return anew;
	}

	/** Remembers how a part was made, whatever becomes of it. @param {Element} e */
	remember(e) {
		this.made.set(e, this.written.serializeToString(e));
		if (holds(e)) for (const c of e.children) this.remember(c);
	}

	/** Makes old parts of a parent the new ones, and keeps of them what was made alike.
	 * @param {Element} parent @param {Element[]} old @param {Element[]} parts */
	renew(parent, old, parts) {
		let i = 0;
		for (const p of parts) {
			const alike = old.findIndex((o, k) => k >= i && this.made.get(o) === this.made.get(p));
			const same = alike >= 0 ? alike : old.findIndex((o, k) => k >= i && holds(o) && o.tagName === p.tagName && o.id === p.id && o.className === p.className);
			if (same < 0) {
				parent.insertBefore(p, old[i] ?? null);
				continue;
			}
			for (; i < same; i++) old[i].remove();
			const [o] = [old[i++]];
			if (alike >= 0) continue;
			this.made.set(o, /** @type {string} */ (this.made.get(p)));
			this.renew(o, [...o.children], [...p.children]);
		}
		for (; i < old.length; i++) old[i].remove();
	}

	/** Shows what is given. @param {Plain} state @param {boolean} fresh whether fields hold nothing yet */
	fill(state, fresh) {
		const was = this.filled;
		const { typing } = this;
		this.filled = state;
		this.typing = "";
		if (fresh || !was) {
			for (const path of this.fields.keys()) this.fillOne(path, state, fresh);
			return;
		}
		for (const [part, paths] of this.parts) {
			if (at(was, part) !== at(state, part)) for (const path of paths) this.fillOne(path, state, false);
			else if (paths.includes(typing)) this.fillOne(typing, state, false);
		}
	}

	/** @param {string} path @param {Plain} state @param {boolean} fresh */
	fillOne(path, state, fresh) {
		const el = this.fields.get(path);
		const v = at(state, path);
		if (!el) return;
		if (el instanceof HTMLInputElement && el.type === "checkbox") el.checked = v === true;
		else if (fresh || el !== document.activeElement || el instanceof HTMLSelectElement) {
			const text = typeof v === "string" || typeof v === "number" ? String(v) : "";
			if (el.value !== text) el.value = text;
			if (el instanceof HTMLSelectElement && el.value !== text) el.selectedIndex = -1;
		} else this.typing = path;
	}

	/** Shows the defaults where nothing is given. @param {Plain} defaults */
	hint(defaults) {
		this.hinted = defaults;
		for (const [path, el] of this.fields) {
			const v = at(defaults, path);
			const text = typeof v === "string" || typeof v === "number" ? String(v) : "";
			if (el instanceof HTMLSelectElement) {
				// Where the Spec names no default, the first word is what nothing stands for.
				const usual = el.options[0];
				const word = text || (el.options[1]?.value ?? "");
				const said = word ? "usual: " + word : "usual";
				if (usual && usual.value === "" && usual.textContent !== said) usual.textContent = said;
			} else if (el.type !== "checkbox" && el.placeholder !== text) el.placeholder = text;
		}
	}

	/** Offers only the panels that the row of boards has. @param {string[]} roles */
	panels(roles) {
		const offered = { roles: roles.join(), fittings: at(this.state, "spec.fittings") };
		if (offered.roles === this.offered.roles && offered.fittings === this.offered.fittings) return;
		this.offered = offered;
		for (let i = 0, el; (el = this.fields.get("spec.fittings[" + i + "].panel")); i++) {
			if (!(el instanceof HTMLSelectElement)) continue;
			for (const o of el.options) o.hidden = o.disabled = o.value !== "" && o.value !== el.value && !roles.includes(o.value); // some browsers show what is hidden
		}
	}

	/** What a part of the form is called. @param {string} path */
	named(path) {
		return label(path, at(this.state, path.replace(/\.[^.]*$/, ".type")));
	}

	/** One field. @param {string} path @param {Plain} schema @returns {HTMLElement} */
	field(path, schema) {
		const id = idOf(path);
		const name = path.slice(path.lastIndexOf(".") + 1).replace(/\[\d+\]$/, "");
		let el;
		if (schema.type === "boolean") {
			el = make("input", { type: "checkbox", id });
			el.dataset.kind = "boolean";
		} else if (schema.enum) {
			el = make("select", { id });
			el.append(make("option", { value: "" }, "usual"));
			for (const word of schema.enum) if (word !== "default") el.append(make("option", { value: word }, word));
			el.dataset.kind = "word";
		} else {
			el = make("input", { type: "text", id, maxLength: 200, spellcheck: false });
			el.dataset.kind = schema.type === "integer" ? "integer" : words.has(name) ? "text" : "length";
			if (schema.type === "integer") el.inputMode = "numeric";
			if (el.dataset.kind === "text") el.dir = "auto"; // a name may run from the right
		}
		el.dataset.path = path;
		this.fields.set(path, el);
		const wrong = make("div", { className: "wrong", id: id + "-wrong" });
		this.places.set(path.toLowerCase(), wrong);
		const text = make("label", { htmlFor: id }, this.named(path));
		return make("div", { className: "field" + (schema.type === "boolean" ? " tick" : "") }, ...(schema.type === "boolean" ? [el, text] : [text, el]), wrong);
	}

	/** Everything that a schema has at a path. @param {string} path @param {Plain} given @param {Plain} state @returns {HTMLElement} */
	part(path, given, state) {
		const schema = this.resolve(given);
		if (schema.oneOf) return this.kinds(path, schema, state);
		if (schema.type === "array") return this.list(path, schema, state);
		if (schema.type !== "object") return this.field(path, schema);
		return this.group(path, this.named(path), schema, state);
	}

	/** @param {string} path @param {string} legend @param {Plain} schema @param {Plain} state @param {boolean} [all] */
	group(path, legend, schema, state, all) {
		const set = make("fieldset", {}, make("legend", {}, legend));
		const wrong = make("div", { className: "wrong", id: idOf(path) + "-wrong" });
		this.places.set(path.toLowerCase(), wrong);
		set.append(wrong);
		this.members(set, path, schema, state, all ? undefined : plainly);
		return set;
	}

	/** The members of an object; those that are not shown at once go behind "more".
	 * @param {HTMLElement} to @param {string} path @param {Plain} schema @param {Plain} state @param {Set<string>} [shown] */
	members(to, path, schema, state, shown) {
		const rank = (/** @type {string} */ n) => (order.includes(n) ? order.indexOf(n) : order.length);
		const names = Object.keys(schema.properties).filter((n) => n !== "type").sort((a, b) => rank(a) - rank(b));
		const first = shown ? names.filter((n) => shown.has(n)) : names;
		const rest = first.length === 0 ? [] : names.filter((n) => !first.includes(n));
		for (const n of first.length ? first : names) to.append(this.part(path + "." + n, schema.properties[n], state));
		if (rest.length) {
			const more = make("details", { id: idOf(path) + "-more" }, make("summary", {}, "more about " + whatOf(path, state)));
			for (const n of rest) more.append(this.part(path + "." + n, schema.properties[n], state));
			to.append(more);
		}
	}

	/** A list with its elements, each with a way to take it away.
	 * @param {string} path @param {Plain} schema @param {Plain} state */
	list(path, schema, state) {
		const set = make("fieldset", { className: "list" }, make("legend", {}, this.named(path), ...(/\]\.\w+$/.test(path) ? [make("span", { className: "hidden" }, " of " + which(path))] : [])));
		const wrong = make("div", { className: "wrong", id: idOf(path) + "-wrong" });
		this.places.set(path.toLowerCase(), wrong);
		set.append(wrong);
		const items = at(state, path);
		const most = 40;
		const elements = Array.isArray(items) ? items.slice(0, most) : [];
		if (Array.isArray(items) && items.length > most) set.append(make("p", { className: "hint" }, "Only the first " + most + " of " + items.length + " have fields here."));
		elements.forEach((_, i) => {
			const here = path + "[" + i + "]";
			const inner = this.resolve(schema.items);
			const row = make("div", { className: "row" });
			if (inner.type === "object") this.members(row, here, inner, state, inner.properties.caliper ? plainly : undefined);
			else row.append(this.field(here, inner));
			row.append(this.button("Remove this " + one(path), here, () => {
				this.edit(here, undefined, true);
				document.getElementById(idOf(path) + "-add")?.focus();
			}, ": " + which(here), "remove"));
			set.append(row);
		});
		const inner = this.resolve(schema.items);
		const start = inner.type === "object" ? {} : "";
		set.append(this.button("Add " + (one(path) === "amount" ? "an " : one(path) === "one" ? "" : "a ") + one(path), path, () => {
			const now = at(this.state, path);
			const next = path + "[" + (Array.isArray(now) ? now.length : 0) + "]";
			this.edit(next, start, true);
			const member = inner.type !== "object" ? "" : "size" in inner.properties ? ".size" : ".name";
			document.getElementById(idOf(next + member))?.focus();
		}, " to " + (which(path) || this.named(path).toLowerCase()), "add"));
		return set;
	}

	/** @param {string} text @param {string} path @param {() => void} act @param {string} hidden @param {string} [end] of its id */
	button(text, path, act, hidden, end) {
		const b = make("button", { type: "button", id: idOf(path) + "-" + (end ?? text.toLowerCase().replace(/\W/g, "-")) }, text, make("span", { className: "hidden" }, hidden));
		b.addEventListener("click", act);
		return b;
	}

	/** Members of the kind that is there. @param {string} path @param {Plain} schema @param {Plain} state */
	kinds(path, schema, state) {
		const box = make("div", { className: "kind" });
		const wrong = make("div", { className: "wrong", id: idOf(path) + "-wrong" });
		this.places.set(path.toLowerCase(), wrong);
		box.append(wrong);
		const type = at(state, path + ".type");
		const one = schema.oneOf.find((/** @type {Plain} */ o) => o.properties.type.const === type);
		if (one) this.members(box, path, one, state, plainly);
		return box;
	}

	/** What is wrong, each beside its field or, where it has none, above.
	 * @param {Plain[]} problems @param {(v: Plain) => HTMLElement} write
	 * @returns {Plain[]} those without a field */
	wrong(problems, write) {
		clearTimeout(this.describing);
		for (const el of this.marked) {
			el.removeAttribute("aria-invalid");
			el.removeAttribute("aria-describedby");
			if (el.firstChild && el.className === "wrong") el.replaceChildren();
		}
		this.marked.clear();
		const loose = [];
		for (const v of problems) {
			const place = this.placeOf(v.path);
			if (!place) { loose.push(v); continue; }
			const said = write(v);
			const words = said.querySelector(".words") ?? said;
			words.id = place.id + "-" + place.childElementCount;
			place.append(said);
			this.marked.add(place);
			const el = /** @type {HTMLElement | null} */ (document.getElementById(place.id.replace(/-wrong$/, "")));
			el?.setAttribute("aria-invalid", "true");
			if (el) this.marked.add(el);
			// Only the words: the buttons beside them are heard by themselves.
			const describe = () => el?.setAttribute("aria-describedby", [...place.querySelectorAll(".words")].map((w) => w.id).join(" "));
			// What is wrong with half a word is not read out while the word is typed.
			if (el === document.activeElement) this.describing = setTimeout(describe, 700);
			else describe();
			for (let d = place.closest("details"); d; d = d.parentElement?.closest("details") ?? null) d.open = true;
		}
		return loose;
	}

	/** Where a violation is said: at its field, else at what holds that.
	 * @param {string} path */
	placeOf(path) {
		for (let p = pathInState(path); p !== ""; p = p.replace(/(\.|^|\[)[^.[]*$/, "")) {
			const place = this.places.get(p) ?? this.places.get(p.replace(/(fittings\[\d+\]\.kind)\./, "$1.kind."));
			if (place) return place;
		}
		return undefined;
	}
}

/** The part of the state that a field is in: two steps, and which of a list. @param {string} path */
const partOf = (path) => /^\w+(\.\w+(\[\d+\])?)?/.exec(path)?.[0] ?? "";

/** What a part of the form is about, in words. @param {string} path @param {Plain} state */
function whatOf(path, state) {
	const type = at(state, path + ".type");
	if (type === "folded") return "what is folded";
	if (path.endsWith("]")) return "this " + one(path);
	return typeof type === "string" && type !== "" ? "the " + type : "the " + label(path).toLowerCase();
}

/** Paths of violations begin below the Spec. @param {string} path */
function pathInState(path) {
	return /^(measured|batch)\b/.test(path) ? path : path === "" ? "" : "spec." + path;
}

/** What the form's fields depend on: kinds and the lengths of lists. @param {any} v @returns {string} */
function shapeOf(v) {
	if (Array.isArray(v)) return "[" + v.slice(0, 99).map(shapeOf).join() + "]";
	if (!isPlain(v)) return "";
	return Object.keys(v).sort().map((k) => {
		const inner = k === "type" || k === "form" ? String(v[k]) : shapeOf(v[k]);
		return inner && k + ":" + inner + ";";
	}).join("");
}
