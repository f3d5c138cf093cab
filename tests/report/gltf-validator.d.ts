/** As far as the tests use it. */
declare module 'gltf-validator' {
  export function validateBytes(bytes: Uint8Array): Promise<{
    info: { version: string };
    /** Severity: 0 error, 1 warning, 2 information, 3 hint. */
    issues: { messages: { code: string; message: string; severity: number; pointer?: string }[] };
  }>;
}
