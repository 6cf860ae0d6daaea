using System.Reflection;

namespace WireUp.Acceptance.Tests.Architecture;

/// <summary>The rooms of the house in the order in which data flows, and their assemblies.</summary>
internal static class Rooms
{
    /// <summary>From the layout file down to the documents. A room knows only rooms before it.</summary>
    public static IReadOnlyList<string> InOrder { get; } =
    [
        "WireUp.Layouts",
        "WireUp.Rails",
        "WireUp.Circuits",
        "WireUp.Checking",
        "WireUp.Planning",
        "WireUp.Faults",
        "WireUp.Documents",
        "WireUp.Web",
    ];

    /// <summary>The program at the edge, which knows every room and which no room knows.</summary>
    public const string Program = "wireup";

    /// <summary>The compiled assembly of a room or of the program.</summary>
    public static Assembly AssemblyOf(string room) => Assembly.Load(room);

    /// <summary>Every type that a room shows to others.</summary>
    public static IEnumerable<Type> PublicTypes => InOrder.SelectMany(room => AssemblyOf(room).GetExportedTypes());
}
