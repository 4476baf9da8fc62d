import fc from 'fast-check';

// Laws are tried on the same random cases every time, so that a red run is about the change and not about luck.
// MENDWISE_SEED tries others.
fc.configureGlobal({ seed: Number(process.env.MENDWISE_SEED ?? 20261125) });
