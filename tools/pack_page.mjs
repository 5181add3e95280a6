// SPDX-License-Identifier: MIT
// pack_page.mjs DIST OUT FUNCTION: packs every file of the built page by gzip into OUT/files and writes OUT/page.S and
// OUT/page.cpp, which carry them inside the program.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

const [dist, out, name] = process.argv.slice(2);
const walk = (folder) =>
    readdirSync(folder, { withFileTypes: true })
        .sort((a, b) => (a.name < b.name ? -1 : 1))
        .flatMap((entry) => (entry.isDirectory() ? walk(join(folder, entry.name)) : [join(folder, entry.name)]));

rmSync(join(out, 'files'), { recursive: true, force: true });
mkdirSync(join(out, 'files'), { recursive: true });
let bytes = 0;
const files = walk(dist).map((path, at) => {
    const packed = gzipSync(readFileSync(path), { level: 9 });
    bytes += packed.length;
    const file = join(out, 'files', `${at}.gz`);
    writeFileSync(file, packed);
    return { name: relative(dist, path).split(sep).join('/') + '.gz', file, symbol: `bw_embedded_page_${at}` };
});

const assembly = files.map(
    ({ symbol, file }) => `    .global ${symbol}, ${symbol}_end\n${symbol}:\n    .incbin "${file}"\n${symbol}_end:\n    .byte 0\n`,
);
writeFileSync(join(out, 'page.S'), `    .section .rodata\n${assembly.join('')}    .section .note.GNU-stack,"",@progbits\n`);

const space = name.slice(0, name.lastIndexOf('::'));
const plain = name.slice(name.lastIndexOf('::') + 2);
const rows = files.map(
    ({ name, symbol }) => `        {"${name}", {${symbol}, static_cast<std::size_t>(${symbol}_end - ${symbol})}},\n`,
);
writeFileSync(
    join(out, 'page.cpp'),
    `#include <array>\n#include "text/embedded.h"\n` +
        files.map(({ symbol }) => `extern "C" const char ${symbol}[], ${symbol}_end[];\n`).join('') +
        `namespace ${space} {\nstd::span<const text::EmbeddedFile> ${plain}() {\n` +
        `    static const std::array<text::EmbeddedFile, ${files.length}> files{{\n${rows.join('')}    }};\n    return files;\n}\n}\n`,
);
console.log(`page: ${files.length} files, ${Math.round(bytes / 1000)} kB packed`);
