using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>
/// What a drawing says of an element's look: in its own style, in a rule of a style sheet, or in an attribute, in this order. Of style sheets the
/// selectors <c>*</c>, <c>path</c>, <c>.name</c>, <c>#name</c> and <c>path.name</c> are understood.
/// </summary>
internal sealed class SvgStyles
{
    private readonly List<(string? Element, string? Class, string? Id, ImmutableDictionary<string, string> Says)> _rules = [];

    /// <summary>Whether some rule was passed over.</summary>
    public bool HasUnknown { get; private set; }

    /// <summary>Whether there are more rules than are read.</summary>
    public bool HasTooMany { get; private set; }

    /// <summary>Takes in a style sheet.</summary>
    public void Add(string sheet)
    {
        foreach (string rule in WithoutComments(sheet).Split('}'))
        {
            string[] parts = rule.Split('{');
            if (parts.Length != 2)
            {
                HasUnknown |= rule.Trim().Length > 0;
                continue;
            }

            ImmutableDictionary<string, string> says = Declarations(parts[1]);
            foreach (string selector in parts[0].Split(',', StringSplitOptions.TrimEntries))
            {
                HasTooMany |= _rules.Count >= SvgLimits.StyleRules;
                if (!HasTooMany) AddRule(selector, says);
            }
        }
    }

    /// <summary>What is said of a property of an element itself, or null.</summary>
    public string? Of(SvgNode node, string property)
    {
        if (node["style"] is { } own && Declarations(own).TryGetValue(property, out string? inline))
        {
            return inline;
        }

        string[] classes = (node["class"] ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        // The heaviest rule wins, of equals the last: a name of one element, then a class, then a kind of element.
        string? best = null;
        int weight = -1;
        foreach (var rule in _rules)
        {
            bool fits = (rule.Element is null || rule.Element == node.Name) && (rule.Id is null || rule.Id == node["id"]) && (rule.Class is null || classes.Contains(rule.Class));
            int heavy = (rule.Id is null ? 0 : 4) + (rule.Class is null ? 0 : 2) + (rule.Element is null ? 0 : 1);
            if (fits && heavy >= weight && rule.Says.TryGetValue(property, out string? said)) (best, weight) = (said, heavy);
        }

        return best ?? node[property];
    }

    /// <summary>A colour in one way of writing, as far as it is known: <c>#rrggbb</c> in small letters.</summary>
    public static string Colour(string text)
    {
        string colour = text.Trim().ToLowerInvariant();
        if (colour.StartsWith('#') && colour.Length == 4)
        {
            return $"#{colour[1]}{colour[1]}{colour[2]}{colour[2]}{colour[3]}{colour[3]}";
        }

        if (colour.StartsWith("rgb(", StringComparison.Ordinal) && new SvgNumbers(colour[3..]).InBrackets() is [var red, var green, var blue])
        {
            return string.Create(CultureInfo.InvariantCulture, $"#{Part(red):x2}{Part(green):x2}{Part(blue):x2}");
        }

        return Names.GetValueOrDefault(colour, colour);
    }

    private static int Part(double part) => (int)Math.Clamp(Math.Round(part), 0, 255);

    // The sixteen basic names. Source: CSS Color Module Level 3, W3C 2018, section 4.1.
    private static readonly ImmutableDictionary<string, string> Names =
        ("black #000000 silver #c0c0c0 gray #808080 white #ffffff maroon #800000 red #ff0000 purple #800080 fuchsia #ff00ff "
        + "green #008000 lime #00ff00 olive #808000 yellow #ffff00 navy #000080 blue #0000ff teal #008080 aqua #00ffff")
        .Split(' ').Chunk(2).ToImmutableDictionary(pair => pair[0], pair => pair[1]);

    private void AddRule(string selector, ImmutableDictionary<string, string> says)
    {
        int mark = selector.IndexOfAny(['.', '#']);
        string element = mark < 0 ? selector : selector[..mark];
        string name = mark < 0 ? "" : selector[(mark + 1)..];
        if (!IsName(element) && element is not ("" or "*") || (mark >= 0 && !IsName(name)))
        {
            HasUnknown = true;
            return;
        }

        string? kind = element is "" or "*" ? null : element;
        _rules.Add(mark < 0 ? (kind, null, null, says) : selector[mark] == '.' ? (kind, name, null, says) : (kind, null, name, says));
    }

    private static bool IsName(string text) => text.Length > 0 && text.All(c => char.IsLetterOrDigit(c) || c is '-' or '_');

    private static ImmutableDictionary<string, string> Declarations(string text)
    {
        ImmutableDictionary<string, string>.Builder says = ImmutableDictionary.CreateBuilder<string, string>();
        foreach (string declaration in text.Split(';'))
        {
            int colon = declaration.IndexOf(':', StringComparison.Ordinal);
            if (colon > 0) says[declaration[..colon].Trim()] = declaration[(colon + 1)..].Replace("!important", "", StringComparison.Ordinal).Trim();
        }

        return says.ToImmutable();
    }

    private static string WithoutComments(string sheet)
    {
        StringBuilder kept = new();
        int at = 0;
        while (sheet.IndexOf("/*", at, StringComparison.Ordinal) is var open and >= 0)
        {
            kept.Append(sheet, at, open - at);
            int close = sheet.IndexOf("*/", open + 2, StringComparison.Ordinal);
            at = close < 0 ? sheet.Length : close + 2;
        }

        return kept.Append(sheet, at, sheet.Length - at).ToString();
    }
}
