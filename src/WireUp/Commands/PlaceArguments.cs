using WireUp.Circuits;
using WireUp.Files;
using WireUp.Layouts;

namespace WireUp.Commands;

/// <summary>Reads what was typed behind <c>--load</c> and <c>--probe</c>.</summary>
internal static class PlaceArguments
{
    /// <summary>Options of the circuit with those loads and probes.</summary>
    /// <exception cref="InputRefused">A place or current cannot be read.</exception>
    public static PowerOptions Options(Layout layout, IEnumerable<string> loads, IEnumerable<string> probes) => new()
    {
        Loads = [.. loads.Select(text => Load(layout, text))],
        Probes = [.. probes.Select(text => Value(LayoutWords.Place(layout, text.Trim()), $"--probe '{text}'"))],
    };

    private static PlacedLoad Load(Layout layout, string text)
    {
        string option = $"--load '{text}'";
        int sign = text.LastIndexOf('=');
        if (sign < 0)
        {
            throw new InputRefused($"{option} names no current; expected a place and a current, such as 'loop@1 m=0.5 A'");
        }

        return new(
            Value(LayoutWords.Place(layout, text[..sign].Trim()), option),
            Value(LayoutWords.Current(text[(sign + 1)..].Trim()), option));
    }

    private static T Value<T>(WordsRead<T> read, string option)
        where T : struct => read.Value ?? throw new InputRefused($"{option}: {read.Trouble}");
}
