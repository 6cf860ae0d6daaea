using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Tests.Support;

/// <summary>A YAML text as JSON, with plain values resolved by the core schema of YAML 1.2 (section 10.3), as editors do.</summary>
internal static partial class YamlAsJson
{
    public static JsonElement? Convert(string text)
    {
        ProblemList problems = new("");
        TextNode? root = TextTreeBuilder.Build(text, problems);
        return root is null || problems.HasErrors ? null : JsonSerializer.SerializeToElement(Of(root));
    }

    private static JsonNode? Of(TextNode node) => node switch
    {
        TextNode.Mapping map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Key.Value, Of(entry.Value)))),
        TextNode.Sequence list => new JsonArray([.. list.Items.Select(Of)]),
        TextNode.Scalar { IsPlain: true } scalar => Plain(scalar.Value),
        TextNode.Scalar scalar => JsonValue.Create(scalar.Value),
        _ => throw new ArgumentOutOfRangeException(nameof(node)),
    };

    private static JsonNode? Plain(string value) => value switch
    {
        "" or "~" or "null" or "Null" or "NULL" => null,
        "true" or "True" or "TRUE" => JsonValue.Create(true),
        "false" or "False" or "FALSE" => JsonValue.Create(false),
        _ when Whole().IsMatch(value) && long.TryParse(value, CultureInfo.InvariantCulture, out long whole) => JsonValue.Create(whole),
        _ when Float().IsMatch(value) && double.IsFinite(double.Parse(value, CultureInfo.InvariantCulture)) =>
            JsonValue.Create(double.Parse(value, CultureInfo.InvariantCulture)),
        _ => JsonValue.Create(value),
    };

    [GeneratedRegex(@"^[-+]?[0-9]+$", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Whole();

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Float();
}
