// Runs the phone's logic over the vectors given as JSON on standard input; answers as JSON.
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [logic, which] = process.argv.slice(2);
const load = (name) => import(pathToFileURL(`${logic}/${name}.js`));
const asked = JSON.parse(readFileSync(0, 'utf8'));

const runs = {
  async lengths() {
    const { read, write } = await load('measure');
    return {
      read: asked.read.map((c) => read(c.input, c.unit)),
      write: asked.write.map((c) => write(c.nm, c.style, c.step_nm ?? undefined)),
    };
  },
  async formulas() {
    const { BadFormula, evaluate } = await load('formula');
    return asked.cases.map((c) => {
      try {
        return evaluate(c.tree, asked.values);
      } catch (wrong) {
        if (wrong instanceof BadFormula) return null;
        throw wrong;
      }
    });
  },
  async fits() {
    const { fit } = await load('fit');
    const { siteFindings } = await load('contradictions');
    const { toNm } = await load('space');
    const sites = asked.sites.map((c) => siteFindings(c.site, asked.shop, 'in').map((f) => [f.level, f.title]));
    const cases = asked.cases.map((c) => {
      const template = asked.templates[c.template];
      const sizes = Object.fromEntries(template.dimensions.map((d) => [d.name, toNm(c.dimensions?.[d.name] ?? d.default)]));
      const found = fit(template, sizes, c.choices ?? {}, c.site, asked.shop, c.units ?? 'in');
      return {
        ...found,
        doubts: undefined,
        clearances: found.clearances.map(({ side, clearance, needed }) => ({ side, clearance, needed })),
        bindings: found.clearances.map((one) => one.binding),
        mends: found.findings.filter((f) => f.title.startsWith('It is too')).map((f) => [f.detail, f.mend]),
        findings: found.findings.map((f) => [f.rule, f.level, f.title]),
      };
    });
    return { cases, sites };
  },
};

process.stdout.write(JSON.stringify(await runs[which]()));
