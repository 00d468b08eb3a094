// Builds and starts examples/web for the tests.
import { spawn, execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const top = fileURLToPath(new URL("../..", import.meta.url));
const dir = mkdtempSync(join(tmpdir(), "web"));
process.on("exit", () => rmSync(dir, { recursive: true, force: true }));

const program = join(dir, "web");
let built = false;
function build() {
	if (!built) execFileSync("go", ["build", "-o", program, "./examples/web"], { cwd: top, stdio: "inherit" });
	built = true;
}

/** The files of the page in a directory. */
export function files() {
	build();
	const to = join(dir, "files");
	execFileSync(program, ["-build", to], { cwd: top, stdio: "pipe" });
	return to;
}

/** Serves the page; resolves to its address and what stops it. */
export function serve() {
	build();
	const server = spawn(program, ["-port", "0"], { cwd: top, stdio: ["ignore", "pipe", "inherit"] });
	return new Promise((done, failed) => {
		let out = "";
		server.stdout.on("data", (b) => {
			out += b;
			const at = /http:\/\/127\.0\.0\.1:\d+\//.exec(out);
			if (at) done({ at: at[0], stop: () => new Promise((ended) => { server.once("exit", ended); server.kill("SIGINT"); }) });
		});
		server.once("exit", (code) => failed(new Error("the server ended: " + code)));
	});
}
