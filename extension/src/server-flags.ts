/**
 * What the server's Node is started with. Code of V8's baseline compiler stays for as long as the server runs, 2.7 MB of it; without it
 * code goes from the interpreter straight to the optimising compilers, and findings come as fast (`npm run bench`).
 */
export const serverFlags: readonly string[] = ['--no-sparkplug'];
