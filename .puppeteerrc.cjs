/** The browser comes from the optional package or the machine; nothing is downloaded at install. */
module.exports = { skipDownload: true };
