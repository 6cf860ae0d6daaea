using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using UnitsNet;

namespace WireUp.Layouts.Tests.Support;

/// <summary>
/// A value as text, with everything in it: two layouts are equal when their texts are. Records compare immutable arrays by
/// identity, so that == says nothing here.
/// </summary>
internal static class Dump
{
    public static string Of(object? value) => Write(new StringBuilder(), value, 0).ToString();

    private static StringBuilder Write(StringBuilder text, object? value, int depth) => value switch
    {
        null => text.AppendLine("null"),
        string single => text.Append('"').Append(single).AppendLine("\""),
        double number => text.AppendLine(number.ToString("R", CultureInfo.InvariantCulture)),
        IQuantity quantity => text.Append(((double)quantity.Value).ToString("R", CultureInfo.InvariantCulture)).Append(' ').AppendLine(quantity.Unit.ToString()),
        Enum or ValueType when IsSimple(value.GetType()) => text.AppendLine(Convert.ToString(value, CultureInfo.InvariantCulture)),
        IEnumerable items => WriteItems(text, items, depth),
        _ => WriteProperties(text, value, depth),
    };

    private static bool IsSimple(Type type) => type.IsEnum || type.IsPrimitive;

    private static StringBuilder WriteItems(StringBuilder text, IEnumerable items, int depth)
    {
        text.AppendLine("[");
        foreach (object? item in items)
        {
            Write(text.Append(' ', depth + 1), item, depth + 1);
        }

        return text.Append(' ', depth).AppendLine("]");
    }

    private static StringBuilder WriteProperties(StringBuilder text, object value, int depth)
    {
        text.AppendLine(value.GetType().Name);
        foreach (PropertyInfo property in value.GetType().GetProperties(BindingFlags.Instance | BindingFlags.Public)
            .Where(property => property.GetIndexParameters().Length == 0)
            .OrderBy(property => property.Name, StringComparer.Ordinal))
        {
            Write(text.Append(' ', depth + 1).Append(property.Name).Append(": "), property.GetValue(value), depth + 1);
        }

        return text;
    }
}
