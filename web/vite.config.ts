// SPDX-License-Identifier: MIT
import { defineConfig } from 'vite';

declare const process: { env: { [name: string]: string | undefined } };
const server = process.env.BANKWRIGHT_SERVER ?? 'http://127.0.0.1:8317';

export default defineConfig({
    base: './',
    esbuild: { jsx: 'automatic', jsxImportSource: 'preact', legalComments: 'none' },
    build: {
        target: 'es2022',
        assetsInlineLimit: 0,
        modulePreload: { polyfill: false },
        chunkSizeWarningLimit: 800,
        rollupOptions: {
            output: { entryFileNames: 'assets/[name]-[hash].js', chunkFileNames: 'assets/[name]-[hash].js' },
        },
    },
    server: { host: '127.0.0.1', proxy: { '/api': { target: server, changeOrigin: true } } },
});
