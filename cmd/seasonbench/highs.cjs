// Solves a model file with the npm package highs and writes `name value` lines, after `# status` and `# bound`.
// node highs.cjs PACKAGE MODEL ANSWER SECONDS GAP
"use strict";
const fs = require("fs");
const [folder, model, answer, seconds, gap] = process.argv.slice(2);

async function main() {
  const highs = await require(folder)();
  const m = highs.createModel({ format: "mps", data: fs.readFileSync(model) });
  m.options.set({ output_flag: false, time_limit: Number(seconds), mip_rel_gap: Number(gap) });
  m.run();
  const code = m.getModelStatus();
  const names = Object.entries(highs.constants.modelStatus);
  const [status] = names.find(([, c]) => c === code) ?? [String(code)];
  const lines = [`# status ${status}`, `# bound ${m.info.get("mip_dual_bound")}`];
  const feasible = 2; // primal_solution_status of a solution that keeps all rows
  if (m.info.get("primal_solution_status") === feasible) {
    m.getSolution().colValue.forEach((x, j) => lines.push(`${m.getColName(j)} ${x}`));
  }
  fs.writeFileSync(answer, lines.join("\n") + "\n");
}

main().catch((e) => {
  console.error(String(e));
  process.exit(1);
});
