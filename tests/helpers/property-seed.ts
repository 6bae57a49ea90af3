import fc from 'fast-check';

// The same cases on every machine, so that a test that passes here passes there. PROPERTY_SEED tries others.
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env.PROPERTY_SEED ?? 20240501) });
