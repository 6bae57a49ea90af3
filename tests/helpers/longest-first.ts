import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest; what other processes do for them counts. The rest follow as the runner thinks best. */
const longest = [
  'browser/report',
  'notebooks/notebooks',
  'opinion/laws',
  'cli',
  'fuzz',
  'opinion/threats/every-search',
  'planning/simulated-chances/simulated-chances',
  'report/main-part',
  'package/package',
  'mangled-to-opinion',
  'notebooks/export',
  'report/paper/paper',
  'findings/drying/drying',
  'report/write-opinion',
].map((file) => `/tests/${file}.test.ts`);

/** In a fresh checkout the runner knows nothing of the files but their size, and a short one that takes a minute would come last, alone. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const others = await super.sort(files);
    const first = longest.flatMap((end) => others.filter(({ moduleId }) => moduleId.endsWith(end)));
    return [...first, ...others.filter((file) => !first.includes(file))];
  }
}
