package cli

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

type completion struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"One of ${enum}."`
}

// Help says how to use the script.
func (c *completion) Help() string {
	return `For this session: bash: source <(armcalc completion bash); zsh: source <(armcalc completion zsh); fish: armcalc completion fish | source.`
}

// Run prints the script. It is made from the tree of commands, so that it
// cannot fall behind.
func (c *completion) Run(out *output, tree *kong.Application) error {
	words := wordsOf(tree)
	switch c.Shell {
	case "bash":
		out.print(words.bash())
	case "zsh":
		out.print(words.zsh())
	case "fish":
		out.print(words.fish())
	}
	return nil
}

// words are what can be completed.
type words struct {
	flags    []flagWord // before any command
	commands []commandWord
}

type commandWord struct {
	name, help string
	values     []string // of the argument; none means a file
	flags      []flagWord
}

type flagWord struct {
	name, help string
	takesValue bool
	values     []string
}

func wordsOf(tree *kong.Application) words {
	w := words{flags: flagsOf(tree.Node)}
	for _, n := range tree.Children {
		c := commandWord{name: n.Name, help: n.Help, flags: flagsOf(n)}
		for _, p := range n.Positional {
			if p.Enum != "" { // without one EnumSlice holds an empty word
				c.values = p.EnumSlice()
			}
		}
		w.commands = append(w.commands, c)
	}
	return w
}

func flagsOf(n *kong.Node) []flagWord {
	var list []flagWord
	for _, f := range n.Flags {
		if f.Hidden {
			continue
		}
		word := flagWord{name: f.Name, help: strings.ReplaceAll(f.Help, "${enum}", f.Enum), takesValue: !f.IsBool()}
		if f.Enum != "" {
			word.values = f.EnumSlice()
		}
		list = append(list, word)
	}
	return list
}

func (w *words) names() []string {
	var list []string
	for _, c := range w.commands {
		list = append(list, c.name)
	}
	return list
}

func dashed(flags []flagWord) string {
	var list []string
	for _, f := range flags {
		list = append(list, "--"+f.name)
	}
	return strings.Join(list, " ")
}

func (w *words) bash() string {
	var b strings.Builder
	b.WriteString("# bash completion for armcalc\n_armcalc() {\n" +
		"    local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command='' i\n" +
		"    for ((i = 1; i < COMP_CWORD; i++)); do\n        case ${COMP_WORDS[i]} in\n")
	fmt.Fprintf(&b, "        %s) command=${COMP_WORDS[i]}; break ;;\n        esac\n    done\n    COMPREPLY=()\n", strings.Join(w.names(), "|"))
	b.WriteString("    case $command:$before in\n")
	for _, c := range w.commands {
		for _, f := range c.flags {
			switch {
			case len(f.values) > 0:
				fmt.Fprintf(&b, "    %s:--%s) mapfile -t COMPREPLY < <(compgen -W '%s' -- \"$current\"); return ;;\n", c.name, f.name, strings.Join(f.values, " "))
			case f.takesValue:
				fmt.Fprintf(&b, "    %s:--%s) return ;;\n", c.name, f.name)
			}
		}
	}
	b.WriteString("    esac\n    case $command:$current in\n")
	fmt.Fprintf(&b, "    :*) mapfile -t COMPREPLY < <(compgen -W '%s %s' -- \"$current\") ;;\n", strings.Join(w.names(), " "), dashed(w.flags))
	for _, c := range w.commands {
		fmt.Fprintf(&b, "    %s:-*) mapfile -t COMPREPLY < <(compgen -W '%s' -- \"$current\") ;;\n", c.name, dashed(append(c.flags, w.flags...)))
		if len(c.values) > 0 {
			fmt.Fprintf(&b, "    %s:*) mapfile -t COMPREPLY < <(compgen -W '%s' -- \"$current\") ;;\n", c.name, strings.Join(c.values, " "))
		}
	}
	b.WriteString("    *) mapfile -t COMPREPLY < <(compgen -f -- \"$current\") ;;\n    esac\n}\ncomplete -o filenames -F _armcalc armcalc\n")
	return b.String()
}

func (w *words) zsh() string {
	var b strings.Builder
	b.WriteString("#compdef armcalc\n_armcalc() {\n    local -a commands\n    commands=(\n")
	for _, c := range w.commands {
		fmt.Fprintf(&b, "        %s\n", quoteZsh(c.name+":"+c.help))
	}
	b.WriteString("    )\n    if (( CURRENT == 2 )); then\n        _describe command commands\n        _arguments" + zshFlags(w.flags) + "\n        return\n    fi\n" +
		"    local command=$words[2]\n    shift words\n    (( CURRENT-- ))\n    case $command in\n")
	for _, c := range w.commands {
		argument := "'1:job file:_files'"
		if len(c.values) > 0 {
			argument = quoteZsh("1:value:(" + strings.Join(c.values, " ") + ")")
		}
		fmt.Fprintf(&b, "    %s) _arguments %s%s ;;\n", c.name, argument, zshFlags(append(c.flags, w.flags...)))
	}
	b.WriteString("    esac\n}\ncompdef _armcalc armcalc\n")
	return b.String()
}

func zshFlags(flags []flagWord) string {
	var b strings.Builder
	for _, f := range flags {
		spec := "--" + f.name + "[" + strings.NewReplacer("[", "(", "]", ")", ":", "\\:").Replace(f.help) + "]"
		switch {
		case len(f.values) > 0:
			spec += ":" + f.name + ":(" + strings.Join(f.values, " ") + ")"
		case f.takesValue:
			spec += ":" + f.name + ": "
		}
		b.WriteString(" \\\n        " + quoteZsh(spec))
	}
	return b.String()
}

// quoteZsh quotes a word for zsh, whose quotes know no escape.
func quoteZsh(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

func (w *words) fish() string {
	var b strings.Builder
	b.WriteString("# fish completion for armcalc\ncomplete -c armcalc -n __fish_use_subcommand -f\n")
	for _, c := range w.commands {
		fmt.Fprintf(&b, "complete -c armcalc -n __fish_use_subcommand -a %s -d %s\n", c.name, quoteFish(c.help))
	}
	for _, f := range w.flags {
		fmt.Fprintf(&b, "complete -c armcalc -l %s -d %s\n", f.name, quoteFish(f.help))
	}
	for _, c := range w.commands {
		seen := "complete -c armcalc -n '__fish_seen_subcommand_from " + c.name + "'"
		if len(c.values) > 0 {
			fmt.Fprintf(&b, "%s -f -a '%s'\n", seen, strings.Join(c.values, " "))
		}
		for _, f := range c.flags {
			line := seen + " -l " + f.name
			if f.takesValue {
				line += " -x"
			}
			if len(f.values) > 0 {
				line += " -a '" + strings.Join(f.values, " ") + "'"
			}
			b.WriteString(line + " -d " + quoteFish(f.help) + "\n")
		}
	}
	return b.String()
}

// quoteFish quotes a word for fish.
func quoteFish(s string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(s) + "'"
}
