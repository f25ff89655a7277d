// Asks veraPDF's engine whether a file is what it says it is: java -cp JARS ArchiveCheck.java 3b file.pdf
import java.io.FileInputStream;
import java.io.InputStream;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.Profiles;
import org.verapdf.pdfa.validation.profiles.ValidationProfile;

public class ArchiveCheck {
    public static void main(String[] asked) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        PDFAFlavour flavour = PDFAFlavour.fromString(asked[0]);
        String name = "org/verapdf/pdfa/validation/PDFA-" + asked[0].toUpperCase() + ".xml";
        ValidationProfile profile;
        try (InputStream xml = ArchiveCheck.class.getClassLoader().getResourceAsStream(name)) {
            profile = Profiles.profileFromXml(xml);
        }
        try (InputStream file = new FileInputStream(asked[1]);
                PDFAParser parser = Foundries.defaultInstance().createParser(file, flavour);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(profile, false)) {
            ValidationResult found = validator.validate(parser);
            System.out.println("compliant=" + found.isCompliant() + " checks=" + found.getTotalAssertions());
            found.getFailedChecks().forEach((rule, times) -> System.out.println("failed " + rule + " " + times));
        }
    }
}
