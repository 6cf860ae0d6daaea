using System.Collections.Immutable;
using System.Xml;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>An element of an SVG drawing.</summary>
/// <param name="Name">Its name without prefix; empty where it is not of SVG's namespace.</param>
/// <param name="Attributes">Its attributes by their names without prefix; those without prefix win.</param>
/// <param name="Children">The elements in it.</param>
internal sealed record SvgNode(string Name, ImmutableDictionary<string, string> Attributes, List<SvgNode> Children)
{
    /// <summary>The text in it, of a style sheet.</summary>
    public string Text { get; set; } = "";

    public string? this[string attribute] => Attributes.GetValueOrDefault(attribute);

    /// <summary>The names by which a person may call it.</summary>
    public IEnumerable<string> Names => new[] { this["label"], this["id"], this["data-name"] }.OfType<string>().Where(name => name.Length > 0);
}

/// <summary>Reads the elements of a drawing within <see cref="SvgLimits"/>, without recursion. Document types are passed over: their entities are unknown, and nothing outside the file is ever read.</summary>
internal static class SvgTree
{
    private const string Namespace = "http://www.w3.org/2000/svg";

    /// <summary>The root element, or why there is none.</summary>
    public static (SvgNode? Root, string? Trouble) Read(string text)
    {
        if (text.Length > SvgLimits.Characters)
        {
            return (null, $"the drawing has {text.Length} characters, at most {SvgLimits.Characters} are read");
        }

        XmlReaderSettings settings = new()
        {
            DtdProcessing = DtdProcessing.Ignore,
            XmlResolver = null,
            MaxCharactersInDocument = SvgLimits.Characters,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
        };
        try
        {
            using StringReader characters = new(text);
            using XmlReader xml = XmlReader.Create(characters, settings);
            return Read(xml);
        }
        catch (XmlException fault)
        {
            return (null, $"the file is not XML: {fault.Message.TrimEnd('.')}");
        }
    }

    private static (SvgNode? Root, string? Trouble) Read(XmlReader xml)
    {
        Stack<SvgNode> open = [];
        SvgNode? root = null;
        int count = 0;
        while (xml.Read())
        {
            switch (xml.NodeType)
            {
                case XmlNodeType.Element:
                    if (++count > SvgLimits.Elements) return (null, $"the drawing has more than {SvgLimits.Elements} elements");
                    if (open.Count >= SvgLimits.Depth) return (null, $"the drawing has more than {SvgLimits.Depth} elements within each other");
                    bool isEmpty = xml.IsEmptyElement;
                    SvgNode node = new(xml.NamespaceURI is Namespace or "" ? xml.LocalName : "", Attributes(xml), []);
                    root ??= node;
                    if (open.TryPeek(out SvgNode? parent)) parent.Children.Add(node);
                    if (!isEmpty) open.Push(node);
                    break;
                case XmlNodeType.EndElement:
                    open.Pop();
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA when open.Peek().Name == "style":
                    open.Peek().Text += xml.Value;
                    break;
            }
        }

        return root?.Name == "svg" ? (root, null) : (null, "the file is not an SVG drawing");
    }

    private static ImmutableDictionary<string, string> Attributes(XmlReader xml)
    {
        ImmutableDictionary<string, string>.Builder attributes = ImmutableDictionary.CreateBuilder<string, string>();
        for (int i = 0; i < xml.AttributeCount; i++)
        {
            xml.MoveToAttribute(i);
            if (xml.Prefix.Length == 0) attributes[xml.LocalName] = xml.Value;
            else attributes.TryAdd(xml.LocalName, xml.Value);
        }

        xml.MoveToElement();
        return attributes.ToImmutable();
    }
}
