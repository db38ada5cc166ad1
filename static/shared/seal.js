// Sealed packets: AES-256-GCM under a key of their own, wrapped with RSA-OAEP for whoever holds the private key.

const RSA = { name: "RSA-OAEP", hash: "SHA-256" };

// `publicKey` is base64 SubjectPublicKeyInfo.
export async function sealed(content, publicKey) {
  const wrapping = await crypto.subtle.importKey("spki", bytes(publicKey), RSA, false, ["wrapKey"]);
  const key = await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, true, ["encrypt"]);
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const data = await crypto.subtle.encrypt({ name: "AES-GCM", iv }, key, new TextEncoder().encode(JSON.stringify(content)));
  const wrapped = await crypto.subtle.wrapKey("raw", key, wrapping, { name: "RSA-OAEP" });
  return { key: base64(wrapped), iv: base64(iv), data: base64(data) };
}

export async function opened({ key, iv, data }, privateKey) {
  const aes = await crypto.subtle.unwrapKey("raw", bytes(key), privateKey, { name: "RSA-OAEP" }, "AES-GCM", false, ["decrypt"]);
  const plain = await crypto.subtle.decrypt({ name: "AES-GCM", iv: bytes(iv) }, aes, bytes(data));
  return JSON.parse(new TextDecoder().decode(plain));
}

export function bytes(text) {
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}

export function base64(buffer) {
  return btoa(Array.from(new Uint8Array(buffer), (byte) => String.fromCharCode(byte)).join(""));
}
