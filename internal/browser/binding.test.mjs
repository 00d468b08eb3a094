// The program as JavaScript calls it, in node.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync, statSync } from "node:fs";
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
				assert.ok(doc.version === 1 || doc.$schema, name);
			}
		}
	}
	assert.equal(b.alive, true);
});

test("two programs do not know of each other", async () => {
	const [a, b] = await Promise.all([library(), library()]);
	const of = (cover) => JSON.stringify({ version: 1, spec: { cover, spine: { width: "1 in" } } });
	a.plan(of("6 x 8 in"));
	assert.equal(JSON.parse(b.plan(of("5 x 7 in"))).plan.pieces[0].size.w.text, "5 in");
	assert.equal(JSON.parse(a.plan(of("6 x 8 in"))).plan.pieces[0].size.w.text, "6 in");
});

// Whoever makes a program smaller may break it: here both are asked the same.
test("the programs answer as the toolchain built them", async () => {
	const at = join(top, "folio/wire/testdata/v1");
	const texts = (of) => readdirSync(join(at, of)).filter((n) => n.endsWith(".json")).map((n) => readFileSync(join(at, of, n), "utf8"));
	const folios = [...texts("."), ...texts("made"), "{", '{"version":1,"spec":{"cover":"1 x 1 in","fittings":[{}]}}'];
	const questions = [
		...folios.flatMap((made) => ["summary", "pictures", "plan", "spec", "tidy", "verdicts", "handout", "templates"].map((name) => [name, made])),
		...texts("batch").flatMap((batch) => [["batch", batch], ["lists", batch]]),
		...texts("request").map((request) => ["proposals", request]),
	];
	for (const [name, tags, least] of [["boardwrap", "", 60], ["planner", "planner", 15]]) {
		const plain = join(dir, "plain-" + name + ".wasm");
		execFileSync("go", ["build", "-trimpath", "-ldflags=-s -w", "-tags=" + tags, "-o", plain, "./examples/web/wasm"], { cwd: top, env: { ...process.env, GOOS: "js", GOARCH: "wasm", GOWORK: "off" }, stdio: "inherit" });
		const small = join(dir, name + ".wasm");
		assert.ok(statSync(small).size < 0.9 * statSync(plain).size);
		const [a, b] = await Promise.all([plain, small].map((f) => library(readFileSync(f))));
		let asked = 0;
		for (const [question, text] of questions) {
			if (!a[question]) continue;
			asked++;
			const want = a[question](text);
			assert.equal(b[question](text), want, name + ": " + question + " of " + text.slice(0, 200));
		}
		assert.ok(asked >= least, name + " is asked " + asked);
		assert.ok(a.alive && b.alive);
	}
});

test("how large the program is", (t) => {
	const raw = statSync(join(dir, "boardwrap.wasm")).size;
	t.diagnostic(`boardwrap.wasm: ${raw} bytes, ${gzipSync(readFileSync(join(dir, "boardwrap.wasm")), { level: 9 }).length} gzipped`);
	assert.ok(raw > 0);
});
