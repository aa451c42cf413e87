# Reads "go test -v": of a package that passed it prints the skipped tests with
# their reasons and the closing line, of any other everything.
{ held[++n] = $0 }
/^=== /           { said = ""; next }
/^ *--- SKIP: /   { skips[++m] = $0 said; said = ""; next }
/^ *--- /         { said = ""; next }
/^(ok  |\?   )\t/ { for (i = 1; i <= m; i++) print skips[i]; print; fflush(); n = m = 0; next }
/^FAIL\t/         { for (i = 1; i <= n; i++) print held[i]; fflush(); n = m = 0; next }
/^ /              { said = said "\n" $0 }
END               { for (i = 1; i <= n; i++) print held[i] }
