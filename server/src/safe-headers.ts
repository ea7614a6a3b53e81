import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

/**
 * Headers of every answer: scripts, styles and pictures from here alone, nothing inline, no other page
 * may frame or read this one, no address leaks to another, and nothing that may hold a patient is kept
 * by the browser.
 */
export async function addSafeHeaders(app: FastifyInstance): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        // The barcode reader is WebAssembly from here; `eval` of scripts stays forbidden.
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        imgSrc: ["'self'", 'blob:', 'data:'],
        workerSrc: ["'self'", 'blob:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    crossOriginOpenerPolicy: { policy: 'same-origin' },
    crossOriginEmbedderPolicy: { policy: 'require-corp' },
    crossOriginResourcePolicy: { policy: 'same-origin' },
    frameguard: { action: 'deny' },
    referrerPolicy: { policy: 'no-referrer' },
    // Plain http on the loopback: there is no certificate that a browser could insist on.
    strictTransportSecurity: false,
  });
  app.addHook('onRequest', async (_request, reply) => {
    reply.header('cache-control', 'no-store');
    // The camera only reads implant labels, on a press, and its pictures stay in the page.
    reply.header('permissions-policy', 'camera=(self), microphone=(), geolocation=(), payment=(), usb=()');
  });
}
