using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using UnitsNet;

namespace WireUp.Testing;

/// <summary>
/// Writes an answer out in full, for comparing with an approved text: what says something of itself in its own words, records property by
/// property, figures to five digits. What is empty, null or asked to be left out is left out.
/// </summary>
internal static class Spelled
{
    private const int Wide = 150;

    public static string Out(object? value, params string[] without) => Of(value, "", without).Trim('\n') + "\n";

    /// <summary>An answer written out below a head, or nothing where nothing is left of it.</summary>
    public static string Under(string head, object answer, params string[] without) => Out(answer, without) is { Length: > 1 } words ? $"{head}:\n{words}" : "";

    private static string Of(object? value, string indent, string[] without) => value switch
    {
        null => "none",
        string text => text,
        bool yes => yes ? "yes" : "no",
        double number => Number(number),
        Enum or int or long => Convert.ToString(value, CultureInfo.InvariantCulture)!,
        IQuantity quantity => $"{Number((double)quantity.Value)} {quantity.Unit}",
        IDictionary pairs => List(pairs.Cast<object>().Select(pair => Pair(pair, indent, without)), indent),
        IEnumerable many => List(many.Cast<object?>().Select(item => item is not null && IsPair(item.GetType()) ? Pair(item, indent, without) : Of(item, $"{indent}  ", without)), indent),
        _ => value.ToString() is { } words && !words.StartsWith($"{value.GetType().Name} {{", StringComparison.Ordinal) && words != value.GetType().ToString()
            ? words
            : Properties(value, indent, without),
    };

    private static bool IsPair(Type type) => type.IsGenericType && type.GetGenericTypeDefinition() == typeof(KeyValuePair<,>);

    private static string Pair(object pair, string indent, string[] without) =>
        $"{Of(Get(pair, "Key"), indent, without)}={Of(Get(pair, "Value"), $"{indent}  ", without)}";

    private static object? Get(object of, string property) => of.GetType().GetProperty(property)!.GetValue(of);

    private static string List(IEnumerable<string> items, string indent)
    {
        string[] all = [.. items];
        return all.Sum(item => item.Length + 2) <= Wide && !all.Any(item => item.Contains('\n'))
            ? string.Join(", ", all)
            : string.Concat(all.Select(item => $"\n{indent}- {item.TrimStart('\n', ' ')}"));
    }

    private static string Properties(object value, string indent, string[] without)
    {
        StringBuilder text = new();
        foreach (PropertyInfo property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance))
        {
            if (property.GetIndexParameters().Length > 0 || without.Contains(property.Name)) continue;
            string words = property.GetValue(value) is { } inner ? Of(inner, $"{indent}  ", without) : "";
            if (words.Length > 0) text.Append(CultureInfo.InvariantCulture, $"\n{indent}{property.Name}: {words}");
        }

        return text.ToString();
    }

    private static string Number(double number) => number == 0 ? "0" : number.ToString("G5", CultureInfo.InvariantCulture);
}
