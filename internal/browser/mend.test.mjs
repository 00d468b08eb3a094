// What violations say would do, done as the page's buttons do it, in node.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import test, { before } from "node:test";
import { files } from "./web.mjs";

let planner, whole, mend, state, defs;
before(async () => {
	const dir = files();
	const { open } = await import(pathToFileURL(join(dir, "boardwrap.js")));
	planner = await open(readFileSync(join(dir, "planner.wasm")));
	whole = await open(readFileSync(join(dir, "boardwrap.wasm")));
	mend = await import(pathToFileURL(join(dir, "mend.js")));
	state = await import(pathToFileURL(join(dir, "state.js")));
	defs = JSON.parse(readFileSync(join(dir, "schemas.json"), "utf8")).spec.$defs;
});

const plan = (s) => JSON.parse(planner.summary(state.documentOf(s)));

/** Folios that can be made: a crew's, in inches and in millimetres, with a bit of everything. */
const crews = () => [
	state.first(),
	{ spec: { cover: "150 x 210 mm", rulers: { main: "1 mm" }, spine: { width: "18 mm" }, board: { caliper: "2 mm" }, stocks: [{ name: "card", caliper: "0.3 mm", grammage: "250 g/m²" }],
		fittings: [
			{ name: "oars", panel: "left cover", stock: "card", kind: { type: "mat", size: "100 x 150 mm" } },
			{ name: "badge", panel: "right cover", kind: { type: "ornament", size: "20 x 20 mm", thickness: "1 mm" }, place: { along: "head", offset: { y: "10 mm" } } },
			{ name: "cards", panel: "right cover", place: { along: "tail", offset: { y: "10 mm" } }, kind: { type: "folded", kind: { type: "slip pocket", content: { name: "card", size: "85 x 54 mm", thickness: "1 mm" }, count: 2 } } },
		] } },
	{ spec: { form: "double-spine gate", cover: "8 x 10 in", spine: { contents: "1/2 in" }, doorGap: "1/8 in", hinge: { rule: "fixed", width: "1/2 in" }, covering: { sheets: [{ size: "30 x 40 in" }] },
		fittings: [{ panel: "back", kind: { type: "folded", kind: { type: "gusset pocket", content: { size: "3 x 4 in" } } } }] } },
	{ spec: { cover: "6 x 8 in", spine: { width: "5/8 in" } }, measured: { width: "12 7/8 in", height: "8 in" } },
];

/** All fields of a folio with what a slip of the hand makes of them. */
function* slips(s) {
	// What there is no field for may come with a file, or an address from elsewhere.
	for (const path of ["spec.colour", "spec.fittings[0].colour", "spec.fittings[0].kind.colour", "spec.cover.colour"]) yield state.put(s, path, "red");
	function* fields(schema, path) {
		if (schema.$ref) schema = defs[schema.$ref.replace("#/$defs/", "")];
		const now = state.at(s, path);
		if (schema.oneOf) schema = schema.oneOf.find((o) => o.properties.type.const === now?.type) ?? {};
		if (schema.type === "array") {
			for (let i = 0; i < (Array.isArray(now) ? now.length : 0); i++) yield* fields(schema.items, path + "[" + i + "]");
		} else if (schema.properties) {
			for (const [name, one] of Object.entries(schema.properties)) if (name !== "type") yield* fields(one, path + "." + name);
		} else yield [path, schema];
	}
	for (const [path, schema] of fields({ $ref: "#/$defs/folio.Spec" }, "spec")) {
		let odd = [];
		if (schema.enum) odd = [...schema.enum, "nothing of the kind"];
		else if (schema.type === "integer") odd = [-1, 0, 1, 3, 400, 1e9];
		else if (schema.type === "boolean") odd = [true];
		else if (/width and a height/.test(schema.description)) odd = ["1 x 1 in", "1 x 8 in", "9 x 7 in", "40 x 3 in", "300 x 400 mm", "0 x 5 mm", "5 in x"];
		else if (/a length/.test(schema.description)) odd = ["none", "-2 mm", "0.001 mm", "1/16 in", "1/2 in", "50 mm", "3 in", "20 in", "90 m", "wide"];
		else odd = ["nobody", "oars", "card", "1/16 in"];
		for (const to of odd) {
			const slip = state.put(s, path, to);
			if (slip?.spec) yield slip;
		}
	}
}

test("what would do is done by a button, or is for the maker to choose", (t) => {
	let [all, done, n] = [0, 0, 0];
	const rest = new Map();
	for (const sound of crews()) {
		assert.ok(plan(sound).summary, JSON.stringify(plan(sound)));
		for (const slip of slips(sound)) {
			if (n++ % 2) continue; // half of them are enough to know
			const was = plan(slip);
			if (!was.error) continue;
			const spec = JSON.parse(whole.spec(state.documentOf(slip))).spec;
			for (const v of [...was.error.problems ?? [], ...was.error.faults ?? []]) {
				all++;
				// As for an address that somebody has sent: nothing is known of a state before.
				const ways = [...mend.ways(v, slip, defs, { spec: spec ?? {} }), ...mend.leftOut(v, slip)];
				if (ways.some((w) => mend.mends(plan(w.state), v, was, w) > 0)) { done++; continue; }
				const key = v.code + ": " + v.want.replace(/\d[\d ,./]*/g, "# ");
				rest.set(key, [...rest.get(key) ?? [], v.path + ": " + v.got + "; want " + v.want + (ways.length ? " (tried: " + ways.map((w) => w.say).join(", ") + ")" : "")]);
			}
		}
	}
	t.diagnostic(`${done} of ${all} violations have a button that mends them`);
	for (const [key, list] of [...rest].sort((a, b) => b[1].length - a[1].length)) t.diagnostic(`${list.length} without: ${key}, as in ${list[0].slice(0, 300)}`);
	assert.ok(all > 1000, `only ${all} violations`);
	assert.ok(done >= 0.998 * all, `only ${done} of ${all}`);
});

/** A closed folio is no smaller than the page says, and less than a graduation. */
test("closed sizes that can be read off a ruler", () => {
	for (const [l, ruler, want] of [
		[{ text: "6.2626 in", mm: 159.07004 }, undefined, "6 17/64 in"], [{ text: "6 1/4 in", mm: 158.75 }, "1/16 in", "6 1/4 in"], [{ text: "0.6376 in", mm: 16.19504 }, undefined, "41/64 in"],
		[{ text: "6 in", mm: 152.4 }, undefined, "6 in"], [{ text: "5.9999 in", mm: 152.39746 }, undefined, "6 in"], [{ text: "113.32 mm", mm: 113.32 }, "1 mm", "113.4 mm"], [{ text: "7.3 mm", mm: 7.3 }, "1 mm", "7.3 mm"],
		[{ text: "0.000001 mm", mm: 0.000001 }, "1 mm", "0.1 mm"], [{ text: "0.6376 in", mm: 16.19504 }, "0.001 in", "0.638 in"], [{ text: "0 in", mm: 0 }, undefined, "0 in"],
	]) assert.equal(state.atMost(l, ruler), want);
});
