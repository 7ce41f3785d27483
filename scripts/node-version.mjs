// Plain JavaScript, so that an old Node can read it and say what it lacks: the other scripts are TypeScript.
import process from 'node:process';

const least = [22, 18];
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
console.log(`Node ${process.versions.node}`);
if (major < least[0] || (major === least[0] && minor < least[1])) {
  console.error(
    `The scripts need Node ${least.join('.')} or later (the shipped command runs on 20). \`npm ci\` puts Node 24 on the path of npm scripts where it is to be had for this machine; else install one.`,
  );
  process.exitCode = 1;
}
