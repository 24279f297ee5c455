/** A vitest reporter that names every skipped test at the end, with its reason: what was not tried is said. */
export default class SkipsReporter {
  /** @param {readonly import('vitest/node').TestModule[]} modules */
  onTestRunEnd(modules) {
    for (const module of modules) {
      for (const test of module.children.allTests('skipped')) {
        const result = test.result();
        const why = 'note' in result && result.note !== undefined ? result.note : 'see the name of its group';
        console.log(`skipped: ${module.relativeModuleId}: ${test.fullName}: ${why}`);
      }
    }
  }
}
