import {
  type CompareRuleSetsAnswer,
  type CompareRuleSetsParams,
  compareRuleSetsRequest,
  type RuleSetsAnswer,
  type RuleSetsParams,
  ruleSetsRequest,
} from '../../../language/protocol/requests.ts';
import type { Feature } from '../context.ts';

/** Which rule sets a layout may be checked under, and its findings under several of them side by side. */
export const ruleSets: Feature = {
  capabilities: {},
  register(context) {
    context.connection.onRequest<RuleSetsAnswer, void>(
      ruleSetsRequest,
      async ({ uri, others = [] }: RuleSetsParams) => {
        const { ruleSetsElsewhere } = await import('../rule-set-comparison.ts');
        return context.guarded<RuleSetsAnswer>('listing rule sets', failed, () => {
          const analysis = context.analyses.of(uri);
          if (!analysis) return failed;
          const names = new Map(analysis.ruleSetNames.map((name) => [name.toLowerCase(), name]));
          const inSight = [...names.values()].map((name) => ({
            name,
            title: analysis.rulesNamed([name])?.chosen.find((set) => set.name === name)?.title,
          }));
          const chosen = analysis.layout.title.ruleSets.flatMap(({ name }) => names.get(name.toLowerCase()) ?? []);
          const elsewhere = ruleSetsElsewhere(others).filter(({ name }) => !names.has(name.toLowerCase()));
          return { kind: 'rule-sets', inSight: [...inSight, ...elsewhere], chosen };
        });
      },
    );
    context.connection.onRequest<CompareRuleSetsAnswer, void>(
      compareRuleSetsRequest,
      async (params: CompareRuleSetsParams) => {
        // Loaded by the first who asks: checking as one types knows one choice of rule sets.
        const { ruleSetComparison } = await import('../rule-set-comparison.ts');
        return context.guarded('comparing rule sets', failed, () => ruleSetComparison(context, params) ?? failed);
      },
    );
    return undefined;
  },
};

const failed = { kind: 'refused', reason: 'Sillwright failed on this text; see Output, Sillwright.' } as const;
