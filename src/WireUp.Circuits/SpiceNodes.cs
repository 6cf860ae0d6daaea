using System.Text;
using WireUp.Circuits.Network;
using WireUp.Rails;

namespace WireUp.Circuits;

/// <summary>
/// Names of the nodes of a netlist: the place in small letters, anything but letters and digits as an underscore, a number
/// appended where two would read the same. A simulator may take capitals for small letters, so case never tells two apart.
/// </summary>
internal sealed class SpiceNodes
{
    private readonly NodalModel _model;
    private readonly DisjointSetsWorkspace _joined;
    private readonly string?[] _names;

    internal SpiceNodes(NodalModel model)
    {
        _model = model;
        int count = model.Circuit.NodeCount;
        _joined = new DisjointSetsWorkspace(count);
        _names = new string?[count];
        foreach (CircuitElement element in model.Circuit.Elements)
        {
            if (element.Ohms == 0)
            {
                _joined.Join(element.From, element.To);
            }
        }

        NameReferences();
        NameOthers();
    }

    /// <summary>The name of the node's node in the netlist, or null where no source feeds it.</summary>
    internal string? Of(int node) => _names[_joined.Find(node)];

    private void NameReferences()
    {
        HashSet<int> parts = [];
        foreach (CircuitSource source in _model.Circuit.Sources)
        {
            if (parts.Add(_model.Unknowns.Part(source.Minus)))
            {
                _names[_joined.Find(source.Minus)] = "0";
            }
        }
    }

    private void NameOthers()
    {
        HashSet<string> taken = new(StringComparer.Ordinal) { "gnd" };
        for (int node = 0; node < _names.Length; node++)
        {
            if (_joined.Find(node) == node && _names[node] is null && _model.Unknowns.Of(node) != Unknowns.Unfed)
            {
                string name = Plain(_model.Circuit.NameOf(node)), unique = name;
                for (int number = 2; !taken.Add(unique); number++)
                {
                    unique = $"{name}_{number}";
                }

                _names[node] = unique;
            }
        }
    }

    private static string Plain(string place)
    {
        StringBuilder name = new(place.Length);
        foreach (char letter in place)
        {
            char small = char.ToLowerInvariant(letter);
            name.Append(char.IsAsciiLetterLower(small) || char.IsAsciiDigit(small) ? small : '_');
        }

        return name.ToString();
    }
}
