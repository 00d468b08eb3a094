// @ts-check
// What the page is about: one JSON value, with a past and a future, kept in the
// address. Nothing in here trusts it: an address may have come from anybody.

/** The state begins with this, so that another form of it can come later. */
const mark = "#1.";
/** Longer addresses are not read and not written. */
export const longest = 48 * 1024;
/** How many states undo goes back. */
const deepest = 200;

/** @typedef {Record<string, any>} Plain */

/** The folio that is shown first: a rowing crew's. */
export function first() {
	return {
		spec: {
			title: "Eastwater bow pair",
			cover: "6 x 8 in",
			spine: { width: "5/8 in" },
			covering: { sheets: [{ size: "18 x 24 in" }] },
			liner: { sheets: [{ size: "17 x 11 in" }] },
			fittings: [
				{ name: "boat", panel: "right cover", kind: { type: "frame", picture: { name: "print of the boat", size: "4 x 6 in" } } },
				{ name: "race cards", panel: "left cover", kind: { type: "folded", kind: { type: "slip pocket", content: { name: "race card", size: "3 x 4 in" } } } },
			],
		},
	};
}

/** The folio with nothing in it yet. @param {boolean} metric whether lengths are in millimetres */
export function empty(metric) {
	return { spec: metric ? { rulers: { main: "1 mm" }, cover: "150 x 200 mm", spine: { width: "16 mm" } } : { cover: "6 x 8 in", spine: { width: "5/8 in" } } };
}

/** The state as the end of an address; empty where it is too long for one.
 * @param {Plain} state */
export function toAddress(state) {
	const bytes = new TextEncoder().encode(JSON.stringify(state));
	let binary = "";
	for (const b of bytes) binary += String.fromCharCode(b);
	const text = mark + btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
	return text.length > longest ? "" : text;
}

/** How many lists and objects of a state are in one another: a folio takes a dozen. */
const deepestNest = 32;

/** Whether a value has no more lists and objects in one another than that.
 * @param {unknown} v @param {number} room @returns {boolean} */
function shallow(v, room) {
	return typeof v !== "object" || v === null || room > 0 && Object.values(v).every((one) => shallow(one, room - 1));
}

/** The state that a JSON value is, with a word of what is wrong otherwise.
 * @param {unknown} value @param {string} what holds it
 * @returns {{state?: Plain, wrong?: string}} */
function stateOf(value, what) {
	if (!isPlain(value) || !isPlain(value.spec) || !shallow(value, deepestNest)) return { wrong: what + " holds something that is no folio." };
	const known = /** @type {Plain} */ ({ spec: value.spec });
	for (const name of ["measured", "batch", "contents", "anyForm"]) {
		if (Object.hasOwn(value, name)) known[name] = value[name];
	}
	return { state: known };
}

/** The longest file that is opened, in bytes: what the library takes. */
export const longestFile = 1 << 20;

/** The state as a file: a document of the folio, with all that the address holds beside it.
 * @param {Plain} state */
export function toFile(state) {
	return JSON.stringify({ version: 1, ...state }, null, 2) + "\n";
}

/** The state that a file holds, with a word of what is wrong otherwise.
 * @param {string} text @returns {{state?: Plain, wrong?: string}} */
export function fromFile(text) {
	try {
		const value = JSON.parse(text);
		if (isPlain(value) && (value.version ?? 1) !== 1) return { wrong: "The file is from another version of this page." };
		return stateOf(value, "The file");
	} catch {
		return { wrong: "The file is no JSON: no folio can be read from it. What is kept here as “The folio (JSON)” can be opened." };
	}
}

/** The state that an address holds, with a word of what is wrong otherwise.
 * @param {string} hash
 * @returns {{state?: Plain, wrong?: string}} */
export function fromAddress(hash) {
	if (hash === "" || hash === "#") return {};
	if (hash.length > longest) return { wrong: "The address is too long to hold a folio." };
	if (!hash.startsWith(mark)) return { wrong: /^#\d+\./.test(hash) ? "The address is from another version of this page: no folio can be read from it." : "The address holds no folio: some of it may be missing." };
	try {
		const binary = atob(hash.slice(mark.length).replaceAll("-", "+").replaceAll("_", "/"));
		const bytes = Uint8Array.from(binary, (c) => c.charCodeAt(0));
		return stateOf(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes)), "The address");
	} catch {
		return { wrong: "The address is damaged: no folio can be read from it." };
	}
}

/** The document that the library is asked about. @param {Plain} state */
export function documentOf(state) {
	const made = { version: 1, spec: state.spec ?? {} };
	return JSON.stringify(at(state, "measured") === undefined ? made : { ...made, measured: state.measured });
}

/** @param {unknown} v
 * @returns {v is Plain} */
export function isPlain(v) {
	return typeof v === "object" && v !== null && !Array.isArray(v);
}

/** The keys of a path as in spec.fittings[2].kind.
 * @param {string} path */
export function keys(path) {
	return path.split(/[.[\]]+/).filter((k) => k !== "").map((k) => (/^\d+$/.test(k) ? Number(k) : k));
}

/** What is at a path; undefined where nothing is.
 * @param {any} value @param {string} path */
export function at(value, path) {
	for (const k of keys(path)) {
		if (typeof value !== "object" || value === null || !Object.hasOwn(value, k)) return undefined;
		value = value[k];
	}
	return value;
}

/** A copy of a value with something else at a path; undefined takes it away, and
 * what holds nothing any more with it.
 * @param {any} value @param {string} path @param {any} to @returns {any} */
export function put(value, path, to) {
	return putKeys(value, keys(path), to);
}

/** @param {any} value @param {(string|number)[]} way @param {any} to @returns {any} */
function putKeys(value, way, to) {
	if (way.length === 0) return to;
	const [k, ...rest] = way;
	if (typeof k === "number") {
		const list = Array.isArray(value) ? value.slice() : [];
		const next = putKeys(list[k], rest, to);
		if (next === undefined && rest.length === 0) list.splice(k, 1);
		else list[k] = next === undefined ? {} : next;
		return list.length === 0 ? undefined : list;
	}
	const copy = isPlain(value) ? { ...value } : {};
	const next = putKeys(Object.hasOwn(copy, k) ? copy[k] : undefined, rest, to);
	if (next === undefined) delete copy[k];
	else copy[k] = next;
	return Object.keys(copy).length === 0 ? undefined : copy;
}

/** The state now, with its past and its future. */
export class Past {
	/** @param {Plain} state */
	constructor(state) {
		this.list = [state];
		this.i = 0;
		this.about = "";
	}
	get now() { return this.list[this.i]; }
	get canUndo() { return this.i > 0; }
	get canRedo() { return this.i < this.list.length - 1; }
	/** Takes a new state; one that is about the same field takes the place of the
	 * last one, so that undo goes back by whole words.
	 * @param {Plain} state @param {string} about */
	go(state, about) {
		if (JSON.stringify(state) === JSON.stringify(this.now)) return;
		const same = about !== "" && about === this.about && !this.canRedo && this.i > 0;
		this.list = this.list.slice(0, same ? this.i : this.i + 1);
		this.list.push(state);
		if (this.list.length > deepest) this.list.shift();
		this.i = this.list.length - 1;
		this.about = about;
	}
	/** What follows is another change, also of the same field. */
	rest() { this.about = ""; }
	/** @param {number} by */
	step(by) {
		this.i = Math.min(Math.max(this.i + by, 0), this.list.length - 1);
		this.rest();
	}
}

/** What is not cut to any ruler, because calipers add up to it, told up to 1/64 in,
 * 0.001 in or 0.1 mm: never smaller than it is. Counted in whole nanometres.
 * @param {Plain} l a length of a document @param {string} ruler of the folio */
export function atMost(l, ruler = "") {
	const nm = Math.round(l.mm * 1e6);
	if (/mm$/.test(l.text)) return Math.ceil(nm / 100_000) / 10 + " mm";
	if (/^0?\./.test(ruler)) return (Math.ceil(nm / 25_400) / 1000).toFixed(3) + " in";
	let [n, of] = [Math.ceil(nm / 396_875), 64];
	const whole = Math.floor(n / of);
	for (n %= of; n > 0 && n % 2 === 0; n /= 2) of /= 2;
	return [whole || n === 0 ? whole : "", n ? n + "/" + of : ""].filter((part) => part !== "").join(" ") + " in";
}
