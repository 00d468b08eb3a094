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

test("how large the program is", (t) => {
	const raw = statSync(join(dir, "boardwrap.wasm")).size;
	t.diagnostic(`boardwrap.wasm: ${raw} bytes, ${gzipSync(readFileSync(join(dir, "boardwrap.wasm")), { level: 9 }).length} gzipped`);
	assert.ok(raw > 0);
});
