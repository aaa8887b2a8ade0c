/** Keeps the screen on, where the browser can (it wants HTTPS or localhost); else nothing happens. */
export function stayAwake() {
  if (!('wakeLock' in navigator)) return;
  const ask = async () => {
    if (document.visibilityState !== 'visible') return;
    try {
      await navigator.wakeLock.request('screen');
    } catch {
      // Refused when the battery is low, for one; the page works without.
    }
  };
  document.addEventListener('visibilitychange', ask);
  ask();
}
