// Asks veraPDF's own library whether files hold what our papers claim: PDF/A-2a and PDF/UA-1.
// Compiled and run by check.sh; no part of the program or of its automated tests.

import java.io.FileInputStream;
import java.util.Map;
import java.util.TreeMap;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

public class Claims {
    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        int failed = 0;
        for (String file : files) {
            for (PDFAFlavour flavour : new PDFAFlavour[] {PDFAFlavour.PDFA_2_A, PDFAFlavour.PDFUA_1}) {
                try (PDFAParser parser =
                        Foundries.defaultInstance().createParser(new FileInputStream(file), flavour)) {
                    ValidationResult result =
                            Foundries.defaultInstance().createValidator(flavour, false).validate(parser);
                    System.out.printf("%s %s %s%n", result.isCompliant() ? "holds" : "FAILS", flavour, file);
                    if (!result.isCompliant()) {
                        failed++;
                        print(result);
                    }
                }
            }
        }
        System.exit(failed == 0 ? 0 : 1);
    }

    private static void print(ValidationResult result) {
        Map<String, String> first = new TreeMap<>();
        for (TestAssertion check : result.getTestAssertions()) {
            if (check.getStatus() == TestAssertion.Status.FAILED) {
                String rule = check.getRuleId().getClause() + "-" + check.getRuleId().getTestNumber();
                first.putIfAbsent(rule + " " + check.getMessage(), check.getLocation().getContext());
            }
        }
        first.forEach((rule, place) -> System.out.println("  " + rule + "\n    at " + place));
    }
}
