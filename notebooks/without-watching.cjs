/*
 * Loaded before the kernel. Its TypeScript watches the files and folders that a cell's imports could come from, and plans a new build
 * with one timer for files and another for folders; the kernel has room for one. A build, a test or a checkout beside a running notebook
 * touches both, and the kernel ends with "Unexpected pending rebuildTimer". A notebook reads what is there when it is imported, so that
 * nothing needs watching; the kernel tells its TypeScript of a cell's own text by itself.
 */
const { createRequire } = require('node:module');

const ofTslab = createRequire(require.resolve('tslab/package.json'));
const { sys } = ofTslab('@tslab/typescript-for-tslab');

const unwatched = () => ({ close() {} });
sys.watchFile = unwatched;
sys.watchDirectory = unwatched;
