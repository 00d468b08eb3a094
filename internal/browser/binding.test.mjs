// The program as JavaScript calls it, in node.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import test, { before } from "node:test";
import { gzipSync } from "node:zlib";
import { files, top } from "./web.mjs";

let dir, library;
before(async () => {
	dir = files();
	({ open: library } = await import(pathToFileURL(join(dir, "boardwrap.js"))));
});

test("the example of the README prints what it says", () => {
	const readme = readFileSync(join(top, "README.md"), "utf8");
	const [, source] = /```js\n([^]*?)```/.exec(readme);
	const [, printed] = /```js\n[^]*?```\n\nprints\n\n((?: {4}.*\n)+)/.exec(readme);
	assert.ok(source.trimEnd().split("\n").length <= 10);
	writeFileSync(join(dir, "example.mjs"), source);
	const out = execFileSync(process.execPath, ["example.mjs"], { cwd: dir, encoding: "utf8" });
	assert.equal(out, printed.replaceAll(/^ {4}/gm, ""));
});

test("every function of the declarations is there, and no other", async () => {
	const declared = [...readFileSync(join(dir, "boardwrap.d.ts"), "utf8").matchAll(/^\t(?:readonly )?(\w+)[(:?]/gm)].map((m) => m[1]).sort();
	const b = await library();
	assert.deepEqual(Object.keys(b).sort(), declared);
	assert.equal(b.alive, true);
});

test("nothing throws, whatever is asked", async () => {
	const b = await library();
	const odd = [undefined, null, 7, {}, [], "", "{", "null", "\ud800", "x".repeat(2 << 20), '{"version":1,"spec":{"cover":7}}', Symbol.iterator, () => 1, 2n];
	for (const name of Object.keys(b).filter((n) => n !== "alive")) {
		for (const x of odd) {
			for (const y of odd) {
				const doc = JSON.parse(b[name](x, y));
				assert.equal(doc.version, 1, name);
			}
		}
	}
	assert.equal(b.alive, true);
});

test("the schemas of the documents lie beside it, as the declarations say", async () => {
	const schemas = JSON.parse(readFileSync(join(dir, "schemas.json"), "utf8"));
	const [, names] = /by its name: ([^.]*)\./.exec(readFileSync(join(dir, "boardwrap.d.ts"), "utf8"));
	assert.deepEqual(Object.keys(schemas), names.replaceAll(/[\s*]+/g, " ").split(", "));
	for (const [name, schema] of Object.entries(schemas)) assert.ok(schema.required.includes(name) && schema.properties[name], name);
	const b = await library();
	assert.deepEqual(Object.keys(JSON.parse(b.plan("{}"))).sort(), [...schemas.error.required].sort());
});

test("two programs do not know of each other", async () => {
	const [a, b] = await Promise.all([library(), library()]);
	const of = (cover) => JSON.stringify({ version: 1, spec: { cover, spine: { width: "1 in" } } });
	a.plan(of("6 x 8 in"));
	assert.equal(JSON.parse(b.plan(of("5 x 7 in"))).plan.pieces[0].size.w.text, "5 in");
	assert.equal(JSON.parse(a.plan(of("6 x 8 in"))).plan.pieces[0].size.w.text, "6 in");
});

test("a worker starts a program that has ended anew and asks it again, and fetches again what was out of reach", async () => {
	// As a page has it, with a first program that ends at its first question and one that always does.
	const posted = [];
	let [opened, ending, reach] = [0, 1, false];
	const { compile } = WebAssembly;
	Object.assign(globalThis, { postMessage: (m) => posted.push(m), onmessage: undefined });
	WebAssembly.compile = async (source) => {
		if (!reach && source.byteLength > 1e6) throw new Error("out of reach"); // not what node itself compiles
		return compile.call(WebAssembly, source);
	};
	let take;
	Object.defineProperty(globalThis, "boardwrap", { configurable: true, get: () => take, set: (f) => {
		take = f && ((all) => f(opened++ < ending ? Object.fromEntries(Object.keys(all).map((k) => [k, () => { throw new RangeError("out of memory"); }])) : all));
	} });
	try {
		await import(pathToFileURL(join(dir, "worker.js")));
		const ask = async (id) => {
			await globalThis.onmessage({ data: { id, questions: [["summary", '{"version":1,"spec":{"cover":"6 x 8 in","spine":{"width":"1 in"}}}']] } });
			return posted.find((m) => m.id === id);
		};
		await globalThis.onmessage({ data: { program: "planner.wasm" } });
		assert.match((await ask(1)).failed, /out of reach/);
		reach = true;
		assert.equal(JSON.parse((await ask(2)).answers[0]).summary.open.height, "8 in");
		assert.equal(opened, 2);
		assert.equal(JSON.parse((await ask(3)).answers[0]).summary.open.height, "8 in");
		assert.equal(opened, 2, "one that answers stays");
		// What takes more than there is ends each of them: it is said, and there is an end to it.
		await import(pathToFileURL(join(dir, "worker.js")) + "?another");
		[opened, ending] = [0, 2];
		await globalThis.onmessage({ data: { program: "planner.wasm" } });
		assert.match(JSON.parse((await ask(4)).answers[0]).error.message, /the program has ended: RangeError: out of memory/);
		assert.equal(JSON.parse((await ask(5)).answers[0]).summary.open.height, "8 in", "what is asked next is answered");
	} finally {
		WebAssembly.compile = compile;
		for (const name of ["boardwrap", "postMessage", "onmessage"]) delete globalThis[name];
	}
});

test("how large the program is", (t) => {
	const raw = statSync(join(dir, "boardwrap.wasm")).size;
	t.diagnostic(`boardwrap.wasm: ${raw} bytes, ${gzipSync(readFileSync(join(dir, "boardwrap.wasm")), { level: 9 }).length} gzipped`);
	assert.ok(raw > 0);
});
