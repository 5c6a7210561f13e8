// A code that came behind # is filled in and taken out of the address, so that it stands in no history.

const code = document.getElementById("code");
const brought = location.hash.slice(1).replace(/[^0-9A-Za-z]/g, "").slice(0, 8);
if (brought) {
  code.value = `${brought.slice(0, 4)}-${brought.slice(4)}`;
  history.replaceState(null, "", location.pathname);
  document.getElementById("name").focus();
}
