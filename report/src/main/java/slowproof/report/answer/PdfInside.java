package slowproof.report.answer;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;
import org.apache.pdfbox.pdmodel.graphics.color.PDOutputIntent;

/** Puts the data, and what the file says about itself, into a laid-out PDF. */
final class PdfInside {
    /** ISO 19005-3, 6.6.2.3: a schema that the standard does not know has to be described. */
    private static final String ACCESSIBILITY = """
            <rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" \
            xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" \
            xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
            <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
            <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
            <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
            <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
            <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
            <pdfaProperty:name>part</pdfaProperty:name>
            <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
            <pdfaProperty:category>internal</pdfaProperty:category>
            <pdfaProperty:description>part of ISO 14289 that the file keeps to</pdfaProperty:description>
            </rdf:li></rdf:Seq></pdfaSchema:property>
            </rdf:li></rdf:Bag></pdfaExtension:schemas>
            </rdf:Description>
            """;

    private final PDDocument document;

    PdfInside(PDDocument document) {
        this.document = document;
    }

    void complete(Answer answer) throws IOException {
        attach(answer);
        PDDocumentInformation about = new PDDocumentInformation();
        about.setTitle(answer.title());
        about.setProducer(answer.program());
        document.setDocumentInformation(about);
        PDMetadata metadata = new PDMetadata(document, new ByteArrayInputStream(packet(answer)));
        document.getDocumentCatalog().setMetadata(metadata);
        colours();
    }

    /** On its way through the platform's colour management the profile's header changes, on some versions of Java. */
    private void colours() throws IOException {
        for (PDOutputIntent intent : document.getDocumentCatalog().getOutputIntents()) {
            try (OutputStream stream = intent.getDestOutputIntent().createOutputStream(COSName.FLATE_DECODE)) {
                stream.write(SrgbProfile.bytes());
            }
        }
    }

    private void attach(Answer answer) throws IOException {
        Map<String, PDComplexFileSpecification> files = new LinkedHashMap<>();
        COSArray associated = new COSArray();
        for (Attachment attachment : answer.attachments()) {
            PDEmbeddedFile content =
                    new PDEmbeddedFile(document, new ByteArrayInputStream(attachment.content()), COSName.FLATE_DECODE);
            content.setSubtype("application/json");
            content.setSize(attachment.content().length);
            PDComplexFileSpecification file = new PDComplexFileSpecification();
            file.setFile(attachment.name());
            file.setFileUnicode(attachment.name());
            file.setFileDescription(attachment.description());
            file.setEmbeddedFile(content);
            file.setEmbeddedFileUnicode(content);
            // ISO 19005-3, 6.8: how the data relates to the document
            file.getCOSObject().setName(COSName.getPDFName("AFRelationship"), "Data");
            files.put(attachment.name(), file);
            associated.add(file.getCOSObject());
        }
        PDEmbeddedFilesNameTreeNode tree = new PDEmbeddedFilesNameTreeNode();
        tree.setNames(files);
        PDDocumentNameDictionary names = new PDDocumentNameDictionary(document.getDocumentCatalog());
        names.setEmbeddedFiles(tree);
        document.getDocumentCatalog().setNames(names);
        document.getDocumentCatalog().getCOSObject().setItem(COSName.getPDFName("AF"), associated);
    }

    /** The metadata packet: an own one, because the usual ones carry the time of writing. */
    private static byte[] packet(Answer answer) {
        String title = Xml.escaped(answer.title());
        String release = answer.stamp().isEmpty()
                ? ""
                : "<xmp:MetadataDate>" + Xml.escaped(answer.stamp()) + "</xmp:MetadataDate>\n";
        String packet = "<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                + "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
                + "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
                + " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\""
                + " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\""
                + " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n"
                + "<pdfuaid:part>1</pdfuaid:part>\n"
                + "<pdfaid:part>3</pdfaid:part>\n<pdfaid:conformance>A</pdfaid:conformance>\n"
                + "<dc:format>application/pdf</dc:format>\n"
                + "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">" + title + "</rdf:li></rdf:Alt></dc:title>\n"
                + "<dc:language><rdf:Bag><rdf:li>" + Xml.escaped(answer.language())
                + "</rdf:li></rdf:Bag></dc:language>\n"
                + "<pdf:Producer>" + Xml.escaped(answer.program()) + "</pdf:Producer>\n" + release
                + "</rdf:Description>\n" + ACCESSIBILITY + "</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
        return packet.getBytes(StandardCharsets.UTF_8);
    }
}
