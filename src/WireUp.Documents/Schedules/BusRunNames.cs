using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>Runs of bus have no name in the layout file; on paper each is its district and its place in the list.</summary>
internal static class BusRunNames
{
    /// <summary><c>east:3</c> for the third run of that bus.</summary>
    public static string Of(Bus bus, int index) => string.Create(CultureInfo.InvariantCulture, $"{bus.District}:{index + 1}");
}
